using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Database;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Setup.Fluids;

/// <summary>A fluid as it is set up.</summary>
public sealed partial class EditFluidPage
{
    [Parameter]
    public Guid Id { get; set; }

    [Inject]
    public required ChangeFluidHandler Handler { get; init; }

    protected override Fluid? Find(DeskWords words) => words.Setup.Fluids.FirstOrDefault(f => f.Id == Id);

    protected override FluidDraft DraftOf(Fluid stored, ShopFormat format) => FluidDraft.Of(stored, format);

    protected override async Task<Error?> ChangeAsync(FluidDraft draft, FormReader read, long seenVersion)
    {
        var command = new ChangeFluid(Id, draft.Read(read), seenVersion);
        return read.HasFaults ? null : (await Handler.HandleAsync(command, await Session.ActorAsync(), CancellationToken.None)).Error;
    }
}
