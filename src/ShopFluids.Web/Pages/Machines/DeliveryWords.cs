using ShopFluids.Core.Machines;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Pages.Machines;

/// <summary>How fluid reaches the cut, in words.</summary>
internal static class DeliveryWords
{
    public static string Of(Delivery delivery)
    {
        var words = new[]
        {
            (Way: Delivery.Flood, Word: Texts.Setup_DeliveryFlood),
            (Way: Delivery.ThroughTool, Word: Texts.Setup_DeliveryThroughTool),
            (Way: Delivery.Mist, Word: Texts.Setup_DeliveryMist),
            (Way: Delivery.WashDown, Word: Texts.Setup_DeliveryWashDown),
        };
        return delivery == Delivery.None ? Texts.Record_Nothing : string.Join(", ", words.Where(w => delivery.HasFlag(w.Way)).Select(w => w.Word));
    }
}
