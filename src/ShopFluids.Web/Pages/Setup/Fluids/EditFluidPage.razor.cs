using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Database;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Tuning;
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

    protected override Task<FoundFluid> ReadAsync(DeskWords words, CancellationToken cancellationToken)
    {
        var fluid = Find(words);
        if (fluid is not null && Draft?.Id != fluid.Id)
        {
            Begin(FluidDraft.Of(fluid, words.Format), fluid.Version);
        }

        return Task.FromResult(new FoundFluid(words, fluid));
    }

    private Fluid? Find(DeskWords words) => words.Setup.Fluids.FirstOrDefault(f => f.Id == Id);

    private async Task<Error?> SaveAsync(FormReader read)
    {
        if (Draft is not { } draft)
        {
            return new FluidNotFound();
        }

        var command = new ChangeFluid(Id, draft.Read(read), SeenVersion ?? 0);
        return read.HasFaults ? null : await RefusedAsync(
            (await Handler.HandleAsync(command, await Session.ActorAsync(), CancellationToken.None)).Error,
            words => Find(words) is { } stored ? (FluidDraft.Of(stored, words.Format), stored.Version) : null);
    }
}

/// <param name="Fluid">Null when there is none of this id.</param>
public sealed record FoundFluid(DeskWords Words, Fluid? Fluid);
