using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Rounds;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Shop.Round;

public partial class StopDanger
{
    [Parameter, EditorRequired] public required RoundStop Stop { get; set; }

    [Parameter, EditorRequired] public required ShopFormat Format { get; set; }
}
