using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Setup.Basics;

/// <summary>The shop itself. Two people who change it at once do not overwrite each other.</summary>
public sealed partial class SitePage
{
    private Guid _id;

    [Inject]
    public required SaveSiteHandler Handler { get; init; }

    protected override Task<DeskWords> ReadAsync(DeskWords words, CancellationToken cancellationToken)
    {
        if (Draft is null)
        {
            _id = words.Setup.Site?.Id ?? Clock.NewId();
            Begin(SiteDraft.Of(words.Setup.Site, words.Format), words.Setup.Site?.Version);
        }

        return Task.FromResult(words);
    }

    private async Task<Error?> SaveAsync(FormReader read)
    {
        if (Draft is not { } draft)
        {
            return new NoSite();
        }

        var command = new SaveSite(
            _id,
            read.Text("name", draft.Name),
            draft.TimeZone,
            draft.Culture,
            read.Choice<UnitSystem>("units", draft.Units),
            read.Text("currency", draft.Currency),
            read.WholeNumber("dayStartHour", draft.DayStart),
            draft.ClosedWeekdays,
            read.Number("measurableLitres", draft.Measurable),
            string.IsNullOrWhiteSpace(draft.SafetySheetPlace) ? null : draft.SafetySheetPlace.Trim(),
            SeenVersion,
            read.WholeNumber("lockMinutes", draft.LockMinutes))
        {
            ShiftEnds = draft.ShiftEnds,
            Retention = new(read.WholeNumber("fluidKeepYears", draft.FluidKeepYears), read.WholeNumber("exposureKeepYears", draft.ExposureKeepYears)),
        };
        return read.HasFaults ? null : await RefusedAsync(
            (await Handler.HandleAsync(command, await Session.ActorAsync(), CancellationToken.None)).Error,
            words => words.Setup.Site is { } stored ? (SiteDraft.Of(stored, words.Format), stored.Version) : null);
    }
}
