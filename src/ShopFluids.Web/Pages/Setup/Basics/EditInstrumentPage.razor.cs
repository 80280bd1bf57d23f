using System.Globalization;
using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Database;
using ShopFluids.Core.Instruments;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Setup.Basics;

/// <summary>An instrument as it is set up.</summary>
public sealed partial class EditInstrumentPage
{
    [Parameter]
    public required string Tag { get; set; }

    [Inject]
    public required ChangeInstrumentHandler Handler { get; init; }

    private string Title => string.Format(CultureInfo.CurrentCulture, Texts.Setup_InstrumentTitle, Tag);

    protected override Task<FoundInstrument> ReadAsync(DeskWords words, CancellationToken cancellationToken)
    {
        var instrument = Find(words);
        if (instrument is not null && Draft?.Id != instrument.Id)
        {
            Begin(InstrumentDraft.Of(instrument, words.Format), instrument.Version);
        }

        return Task.FromResult(new FoundInstrument(words, instrument));
    }

    private Instrument? Find(DeskWords words) => words.Setup.Instruments.FirstOrDefault(i => i.TagKey == Tags.Key(Tag));

    private async Task<Error?> SaveAsync(FormReader read)
    {
        if (Draft is not { } draft)
        {
            return new InstrumentNotFound(Guid.Empty);
        }

        var command = new ChangeInstrument(
            draft.Id,
            read.Number("resolution", draft.Resolution),
            read.Number("accuracy", draft.Accuracy),
            draft.CompensatesTemperature,
            draft.CheckEvery.IsEmpty ? null : read.WholeNumber("checkEveryDays", draft.CheckEvery),
            draft.IsInUse,
            SeenVersion ?? 0);
        return read.HasFaults ? null : await RefusedAsync(
            (await Handler.HandleAsync(command, await Session.ActorAsync(), CancellationToken.None)).Error,
            words => Find(words) is { } stored ? (InstrumentDraft.Of(stored, words.Format), stored.Version) : null);
    }
}

/// <param name="Instrument">Null when there is none of this tag.</param>
public sealed record FoundInstrument(DeskWords Words, Instrument? Instrument);
