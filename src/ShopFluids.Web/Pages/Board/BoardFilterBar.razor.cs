using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Board;
using ShopFluids.Rules;

namespace ShopFluids.Web.Pages.Board;

public sealed partial class BoardFilterBar
{
    [Parameter, EditorRequired]
    public required ShopBoard Board { get; set; }

    [Parameter, EditorRequired]
    public required BoardFilter Filter { get; set; }

    [Parameter, EditorRequired]
    public required EventCallback<BoardFilter> Changed { get; set; }

    private Task ChangeArea(ChangeEventArgs e) => Changed.InvokeAsync(Filter with { AreaId = IdOf(e) });

    private Task ChangePerson(ChangeEventArgs e) => Changed.InvokeAsync(Filter with { PersonId = IdOf(e) });

    private Task ChangeKind(ChangeEventArgs e) =>
        Changed.InvokeAsync(Filter with { Kind = Enum.TryParse<TaskKind>(e.Value as string, out var kind) ? kind : null });

    private static Guid? IdOf(ChangeEventArgs e) => Guid.TryParse(e.Value as string, out var id) ? id : null;
}
