using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Database;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Setup.Basics;

/// <summary>An area as it is set up.</summary>
public sealed partial class EditAreaPage
{
    [Parameter]
    public Guid Id { get; set; }

    [Inject]
    public required ChangeAreaHandler Handler { get; init; }

    protected override Area? Find(DeskWords words) => words.Setup.Areas.FirstOrDefault(a => a.Id == Id);

    protected override AreaDraft DraftOf(Area stored, ShopFormat format) => AreaDraft.Of(stored, format);

    protected override async Task<Error?> ChangeAsync(AreaDraft draft, FormReader read, long seenVersion)
    {
        var command = new ChangeArea(Id, read.Text("name", draft.Name), read.WholeNumber("walkOrder", draft.WalkOrder), seenVersion);
        return read.HasFaults ? null : (await Handler.HandleAsync(command, await Session.ActorAsync(), CancellationToken.None)).Error;
    }
}
