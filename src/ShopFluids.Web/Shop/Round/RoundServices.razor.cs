using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Rounds;

namespace ShopFluids.Web.Shop.Round;

public partial class RoundServices
{
    [Parameter, EditorRequired] public required ShopVisit Visit { get; set; }

    [Parameter, EditorRequired] public required IReadOnlyList<RoundService> Services { get; set; }

    [Parameter, EditorRequired] public required DateTime NowUtc { get; set; }

    private string Address(RoundService service) => service.ReadingId is { } reading ? Visit.Links.ToDo(service.Place.Tag, reading) : Visit.Links.Enter(service.Place.Tag);
}
