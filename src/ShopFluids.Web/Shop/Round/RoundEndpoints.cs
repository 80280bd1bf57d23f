using Microsoft.AspNetCore.Http.HttpResults;
using ShopFluids.Core.Rounds;

namespace ShopFluids.Web.Shop.Round;

internal static class RoundEndpoints
{
    public static void MapRound(this IEndpointRouteBuilder app) => app.MapGet("/round", ShowAsync);

    private static async Task<RazorComponentResult<RoundDocument>> ShowAsync(HttpContext http, RoundPageQuery query, string? all)
    {
        var page = await query.RunAsync(http.RequestAborted);
        return new(new { Visit = await ShopVisit.OfAsync(http), Page = page, ShowsAll = all == "1" });
    }
}
