using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Water;
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

    protected override Task<FoundWater> ReadAsync(DeskWords words, CancellationToken cancellationToken)
    {
        var water = Find(words);
        if (water is not null && Draft?.Id != water.Id)
        {
            Begin(WaterDraft.Of(water, words.Format), water.Version);
        }

        return Task.FromResult(new FoundWater(words, water));
    }

    private WaterSource? Find(DeskWords words) => words.Setup.Waters.FirstOrDefault(w => w.Id == Id);

    private async Task<Error?> SaveAsync(FormReader read)
    {
        if (Draft is not { } draft)
        {
            return new WaterNotFound();
        }

        var command = new ChangeWaterSource(Id, draft.Read(read), SeenVersion ?? 0);
        return read.HasFaults ? null : await RefusedAsync(
            (await Handler.HandleAsync(command, await Session.ActorAsync(), CancellationToken.None)).Error,
            words => Find(words) is { } stored ? (WaterDraft.Of(stored, words.Format), stored.Version) : null);
    }
}

/// <param name="Water">Null when there is none of this id.</param>
public sealed record FoundWater(DeskWords Words, WaterSource? Water);
