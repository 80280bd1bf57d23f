using ShopFluids.Core.Machines;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Pages.Machines;

/// <summary>How fluid reaches the cut, in words.</summary>
internal static class DeliveryWords
{
    private static readonly (Delivery Way, Func<string> Word)[] Words =
    [
        (Delivery.Flood, () => Texts.Sump_Flood), (Delivery.ThroughTool, () => Texts.Sump_ThroughTool), (Delivery.Mist, () => Texts.Sump_Mist), (Delivery.WashDown, () => Texts.Sump_WashDown),
    ];

    public static IEnumerable<string> All(Delivery delivery) => Words.Where(w => delivery.HasFlag(w.Way)).Select(w => w.Word());

    public static string Of(Delivery delivery) => delivery == Delivery.None ? Texts.Record_Nothing : string.Join(", ", All(delivery));
}
