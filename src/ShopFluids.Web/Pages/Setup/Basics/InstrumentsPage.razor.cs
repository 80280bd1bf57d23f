using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Database;
using ShopFluids.Core.Instruments;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Setup.Basics;

/// <summary>What values are read from.</summary>
public sealed partial class InstrumentsPage
{
    private InstrumentDraft _draft = new(Guid.Empty);

    [Inject]
    public required AddInstrumentHandler Handler { get; init; }

    protected override Task<DeskWords> ReadAsync(DeskWords words, CancellationToken cancellationToken)
    {
        if (_draft.Id == Guid.Empty)
        {
            _draft = new InstrumentDraft(Clock.NewId());
        }

        return Task.FromResult(words);
    }

    private async Task<Error?> SaveAsync(FormReader read)
    {
        var command = new AddInstrument(
            _draft.Id,
            read.Text("tag", _draft.Tag),
            read.Choice<InstrumentKind>("kind", _draft.Kind),
            read.Number("resolution", _draft.Resolution),
            read.Number("accuracy", _draft.Accuracy),
            _draft.CompensatesTemperature,
            _draft.CheckedOn.Length == 0 ? null : read.Day("checkedOn", _draft.CheckedOn),
            _draft.CheckEvery.IsEmpty ? null : read.WholeNumber("checkEveryDays", _draft.CheckEvery));
        return read.HasFaults ? null : (await Handler.HandleAsync(command, await Session.ActorAsync(), CancellationToken.None)).Error;
    }

    private async Task<string?> SavedAsync()
    {
        var tag = _draft.Tag.Trim();
        _draft = new InstrumentDraft(Guid.Empty);
        await LoadAsync();
        return (await Session.WordsAsync(Leaving)).Format.Say(Texts.Setup_Added, tag);
    }
}
