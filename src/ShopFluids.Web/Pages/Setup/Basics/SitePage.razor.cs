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
    private SiteDraft? _read;
    private SiteDraft _draft = new();
    private Guid _id;
    private long? _seenVersion;

    [Inject]
    public required SaveSiteHandler Handler { get; init; }

    protected override Task<DeskWords> ReadAsync(DeskWords words, CancellationToken cancellationToken)
    {
        if (_read is null)
        {
            _draft = _read = SiteDraft.Of(words.Setup.Site, words.Format);
            _id = words.Setup.Site?.Id ?? Clock.NewId();
            _seenVersion = words.Setup.Site?.Version;
        }

        return Task.FromResult(words);
    }

    private async Task<Error?> SaveAsync(FormReader read)
    {
        var command = new SaveSite(
            _id,
            read.Text("name", _draft.Name),
            _draft.TimeZone,
            _draft.Culture,
            read.Choice<UnitSystem>("units", _draft.Units),
            read.Text("currency", _draft.Currency),
            read.WholeNumber("dayStartHour", _draft.DayStart),
            _draft.ClosedWeekdays,
            read.Number("measurableLitres", _draft.Measurable),
            string.IsNullOrWhiteSpace(_draft.SafetySheetPlace) ? null : _draft.SafetySheetPlace.Trim(),
            _seenVersion,
            read.WholeNumber("lockMinutes", _draft.LockMinutes))
        {
            ShiftEnds = _draft.ShiftEnds,
        };
        return read.HasFaults ? null : (await Handler.HandleAsync(command, await Session.ActorAsync(), CancellationToken.None)).Error;
    }

    private async Task<string?> SavedAsync()
    {
        // Read anew: units and culture may have changed, and the next save stands on this version.
        _read = null;
        await LoadAsync();
        return Texts.Setup_SiteSaved;
    }
}
