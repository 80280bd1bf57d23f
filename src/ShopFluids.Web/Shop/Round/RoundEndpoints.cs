using Microsoft.AspNetCore.Http.HttpResults;
using ShopFluids.Core.Rounds;
using ShopFluids.Web.Shop.Entry;

namespace ShopFluids.Web.Shop.Round;

internal static class RoundEndpoints
{
    public static void MapRound(this IEndpointRouteBuilder app) => app.MapGet("/round", ShowAsync);

    private static async Task<RazorComponentResult<RoundDocument>> ShowAsync(HttpContext http, RoundPageQuery query, EntryPagesAhead ahead, string? all)
    {
        ahead.Expect(ShopReader.Of(http).Look);
        var page = await query.RunAsync(http.RequestAborted);
        return new(new { Visit = await ShopVisit.OfAsync(http), Page = page, ShowsAll = all == "1" });
    }
}
