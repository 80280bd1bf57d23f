using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Setup.Fluids;

/// <summary>A fluid from its data sheet; its limits come with it.</summary>
public sealed partial class NewFluidPage
{
    private FluidDraft _draft = new(Guid.Empty);

    [Inject]
    public required AddFluidHandler Handler { get; init; }

    protected override Task<DeskWords> ReadAsync(DeskWords words, CancellationToken cancellationToken)
    {
        if (_draft.Id == Guid.Empty)
        {
            _draft = new FluidDraft(Clock.NewId());
        }

        return Task.FromResult(words);
    }

    private async Task<Error?> SaveAsync(FormReader read)
    {
        var command = new AddFluid(_draft.Id, _draft.Read(read), read.Number("targetLow", _draft.TargetLow), read.Number("targetHigh", _draft.TargetHigh));
        return read.HasFaults ? null : (await Handler.HandleAsync(command, await Session.ActorAsync(), CancellationToken.None)).Error;
    }

    private Task<string?> Leave()
    {
        Navigation.NavigateTo($"setup/fluids?added={Uri.EscapeDataString(_draft.Name.Trim())}");
        return Task.FromResult<string?>(null);
    }
}
