using Microsoft.AspNetCore.Http.HttpResults;
using ShopFluids.Core.People;
using ShopFluids.Core.Search;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;

namespace ShopFluids.Web.Pages.Search;

/// <summary>The search: a page that needs no script, and the list under the box of every desk page.</summary>
internal static class SearchEndpoints
{
    public const string Path = "/search";
    private const int MostOnPage = 50;
    private const int MostInList = 6;

    public static IServiceCollection AddSearch(this IServiceCollection services) => services.AddSingleton<SearchQuery>();

    public static void MapSearch(this IEndpointRouteBuilder endpoints)
    {
        var search = endpoints.MapGroup(Path).RequireAuthorization(Policies.CanRead);
        search.MapGet("", async (string? q, SearchQuery query, HttpContext http) => new RazorComponentResult<SearchDocument>(new { View = await FindAsync(q, MostOnPage, query, http) }));
        search.MapGet("/list", async (string? q, SearchQuery query, HttpContext http) => new RazorComponentResult<SearchList>(new { View = await FindAsync(q, MostInList, query, http) }));
    }

    private static async Task<SearchView> FindAsync(string? text, int most, SearchQuery query, HttpContext http)
    {
        var isSupervisor = http.User.IsInRole(Roles.Supervisor);
        Sentences? words = null;
        var results = await query.RunAsync(
            new SearchRequest(text ?? "", isSupervisor, most),
            setup => words = new Sentences(setup.FormatFor(http.User.ChosenUnits()), setup),
            http.RequestAborted);
        return new SearchView(results, isSupervisor, words?.Format);
    }
}
