using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Shop;

/// <summary>Stands wherever somebody is about to go to the sump.</summary>
public sealed partial class KeepAwayLine
{
    [Parameter, EditorRequired]
    public required KeepAway? KeepAway { get; set; }

    [Parameter, EditorRequired]
    public required ShopFormat Format { get; set; }
}
