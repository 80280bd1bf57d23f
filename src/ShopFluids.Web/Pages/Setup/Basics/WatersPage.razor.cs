using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Setup.Basics;

/// <summary>The waters that are poured in.</summary>
public sealed partial class WatersPage
{
    private WaterDraft _draft = new(Guid.Empty);

    [Inject]
    public required AddWaterSourceHandler Handler { get; init; }

    protected override Task<DeskWords> ReadAsync(DeskWords words, CancellationToken cancellationToken)
    {
        if (_draft.Id == Guid.Empty)
        {
            _draft = new WaterDraft(Clock.NewId());
            _draft.Zero.Show(0, words.Format);
        }

        return Task.FromResult(words);
    }

    private async Task<Error?> SaveAsync(FormReader read)
    {
        var command = new AddWaterSource(_draft.Id, _draft.Read(read));
        return read.HasFaults ? null : (await Handler.HandleAsync(command, await Session.ActorAsync(), CancellationToken.None)).Error;
    }

    private async Task<string?> SavedAsync()
    {
        var name = _draft.Name.Trim();
        _draft = new WaterDraft(Guid.Empty);
        await LoadAsync();
        return (await Session.WordsAsync(Leaving)).Format.Say(Texts.Setup_Added, name);
    }
}
