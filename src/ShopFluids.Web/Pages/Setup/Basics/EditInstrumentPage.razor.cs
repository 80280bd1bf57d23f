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

    protected override Instrument? Find(DeskWords words) => words.Setup.Instruments.FirstOrDefault(i => i.TagKey == Tags.Key(Tag));

    protected override InstrumentDraft DraftOf(Instrument stored, ShopFormat format) => InstrumentDraft.Of(stored, format);

    protected override async Task<Error?> ChangeAsync(InstrumentDraft draft, FormReader read, long seenVersion)
    {
        var command = new ChangeInstrument(
            draft.Id,
            read.Number("resolution", draft.Resolution),
            read.Number("accuracy", draft.Accuracy),
            draft.CompensatesTemperature,
            draft.CheckEvery.IsEmpty ? null : read.WholeNumber("checkEveryDays", draft.CheckEvery),
            draft.IsInUse,
            seenVersion);
        return read.HasFaults ? null : (await Handler.HandleAsync(command, await Session.ActorAsync(), CancellationToken.None)).Error;
    }
}
