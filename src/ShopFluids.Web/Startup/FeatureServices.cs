using ShopFluids.Core;
using ShopFluids.Core.Exchange;
using ShopFluids.Core.People;

namespace ShopFluids.Web.Startup;

internal static class FeatureServices
{
    /// <summary>Everything the shop can do, without a page: verbs and the server use the same.</summary>
    public static IServiceCollection AddShopFeatures(this IServiceCollection services) => services.AddShopFluidsCore().AddPeople().AddExchange();
}
