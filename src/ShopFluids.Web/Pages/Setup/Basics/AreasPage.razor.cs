using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Setup.Basics;

/// <summary>The parts of the shop floor.</summary>
public sealed partial class AreasPage
{
    private AreaDraft _draft = new(Guid.Empty);

    [Inject]
    public required AddAreaHandler Handler { get; init; }

    protected override Task<DeskWords> ReadAsync(DeskWords words, CancellationToken cancellationToken)
    {
        if (_draft.Id == Guid.Empty)
        {
            _draft = new AreaDraft(Clock.NewId());
            _draft.WalkOrder.Show(words.Setup.Areas.Select(a => a.WalkOrder).DefaultIfEmpty(0).Max() + 1, words.Format);
        }

        return Task.FromResult(words);
    }

    private async Task<Error?> SaveAsync(FormReader read)
    {
        var command = new AddArea(_draft.Id, read.Text("name", _draft.Name), read.WholeNumber("walkOrder", _draft.WalkOrder));
        return read.HasFaults ? null : (await Handler.HandleAsync(command, await Session.ActorAsync(), CancellationToken.None)).Error;
    }

    private async Task<string?> SavedAsync()
    {
        var name = _draft.Name.Trim();
        _draft = new AreaDraft(Guid.Empty);
        await LoadAsync();
        return (await Session.WordsAsync(Leaving)).Format.Say(Texts.Setup_Added, name);
    }
}
