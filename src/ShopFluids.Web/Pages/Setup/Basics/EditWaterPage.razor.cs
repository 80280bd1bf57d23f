using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Water;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Setup.Basics;

/// <summary>A water as it is set up.</summary>
public sealed partial class EditWaterPage
{
    [Parameter]
    public Guid Id { get; set; }

    [Inject]
    public required ChangeWaterSourceHandler Handler { get; init; }

    protected override WaterSource? Find(DeskWords words) => words.Setup.Waters.FirstOrDefault(w => w.Id == Id);

    protected override WaterDraft DraftOf(WaterSource stored, ShopFormat format) => WaterDraft.Of(stored, format);

    protected override async Task<Error?> ChangeAsync(WaterDraft draft, FormReader read, long seenVersion)
    {
        var command = new ChangeWaterSource(Id, draft.Read(read), seenVersion);
        return read.HasFaults ? null : (await Handler.HandleAsync(command, await Session.ActorAsync(), CancellationToken.None)).Error;
    }
}
