using System.Globalization;
using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Care.Finds;
using ShopFluids.Rules;

namespace ShopFluids.Web.Shop.Saved;

public partial class FindFields
{
    [Parameter, EditorRequired] public required SavedView View { get; set; }

    [Parameter, EditorRequired] public required Guid TaskId { get; set; }

    [Parameter, EditorRequired] public required TaskKind Kind { get; set; }

    [Parameter, EditorRequired] public required FindInput Typed { get; set; }

    [Parameter] public bool IsWrong { get; set; }

    private string IdOf(string name) => $"{name}-{TaskId}";

    private static string Number(FilterState state) => ((short)state).ToString(CultureInfo.InvariantCulture);
}
