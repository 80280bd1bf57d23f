using ShopFluids.Core.Readings;
using ShopFluids.Core.Rounds;
using ShopFluids.Web.Account;
using ShopFluids.Web.Account.Stations;
using ShopFluids.Web.Shop.CleanOuts;
using ShopFluids.Web.Shop.Entry;
using ShopFluids.Web.Shop.Photos;
using ShopFluids.Web.Shop.Round;
using ShopFluids.Web.Shop.Saved;
using ShopFluids.Web.Shop.Skips;
using ShopFluids.Web.Shop.Slides;

namespace ShopFluids.Web.Shop;

/// <summary>The operators' pages: documents written by the server, without a circuit.</summary>
public static class ShopEndpoints
{
    public static IServiceCollection AddShopPages(this IServiceCollection services) => services
        .AddSingleton<ShopAssets>()
        .AddSingleton<RoundPageQuery>()
        .AddSingleton<EntryPageQuery>()
        .AddSingleton<ShopLooks>()
        .AddSingleton<EntryPageDrawer>()
        .AddSingleton<KeptEntryPages>()
        .AddSingleton<EntryPagesAhead>()
        .AddHostedService(services => services.GetRequiredService<EntryPagesAhead>())
        .AddSingleton<EntryEndpoints.Pages>()
        .AddSingleton<SavedPageQuery>()
        .AddSingleton<SavedEndpoints.Pages>()
        .AddSingleton<CleanOutEndpoints.Pages>()
        .AddSingleton<SlideEndpoints.Pages>();

    public static IEndpointRouteBuilder MapShopPages(this IEndpointRouteBuilder app)
    {
        var pages = app.MapGroup("").RequireAuthorization(Policies.CanRead);
        var floor = pages.MapGroup("").WithMetadata(new AtStation());
        floor.MapRound();
        floor.MapEntry();
        floor.MapSaved();
        floor.MapSkips();
        floor.MapSlides();
        floor.MapPhotos();
        pages.MapCleanOuts();
        return app;
    }
}
