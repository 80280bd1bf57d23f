using ShopFluids.Core.Exchange;
using ShopFluids.Core.Readings;
using ShopFluids.Web.Api.Json;
using ShopFluids.Web.Api.Readings;

namespace ShopFluids.Web.Api.Sumps;

internal static class SumpEndpoints
{
    public static void MapSumps(this IEndpointRouteBuilder api)
    {
        api.MapGet("/sumps", ListAsync).WithName("ListSumps").WithSummary("Every sump and how it stands").Produces<ListPage<SumpRow>>();
        api.MapGet("/sumps/{tag}", ShowAsync).WithName("GetSump").WithSummary("How one sump stands").Produces<SumpAnswer>()
            .Produces<ApiProblem>(StatusCodes.Status404NotFound, "application/problem+json");
        api.MapGet("/sumps/{tag}/readings", ReadingsAsync).WithName("ListReadings").WithSummary("The readings of a sump, newest first").Produces<ListPage<ReadingRow>>()
            .Produces<ApiProblem>(StatusCodes.Status400BadRequest, "application/problem+json")
            .Produces<ApiProblem>(StatusCodes.Status404NotFound, "application/problem+json");
    }

    private static async Task<IResult> ListAsync(SumpStatesQuery query, CancellationToken cancellationToken)
    {
        var sumps = await query.AllAsync(cancellationToken);
        return TypedResults.Json(new ListPage<SumpRow>([.. sumps.Select(SumpRow.Of)], null), ApiJson.Default.ListPageSumpRow);
    }

    private static async Task<IResult> ShowAsync(string tag, SumpStatesQuery query, ApiSentences sentences, CancellationToken cancellationToken)
    {
        var say = await sentences.CurrentAsync(cancellationToken);
        return await query.OneAsync(tag, cancellationToken) is { } sump
            ? TypedResults.Json(SumpAnswer.Of(sump, say), ApiJson.Default.SumpAnswer)
            : Problems.Of(new SumpNotFound(tag), say);
    }

    private static async Task<IResult> ReadingsAsync(string tag, HttpRequest request, StoredReadingsQuery query, ApiSentences sentences, CancellationToken cancellationToken)
    {
        var say = await sentences.CurrentAsync(cancellationToken);
        var asked = new ListRequest(request, say);
        var (from, to) = (asked.From("from"), asked.Before("to"));
        var (after, limit) = (asked.Place(), asked.Limit());
        if (asked.Faults.Count > 0)
        {
            return Problems.Fields(asked.Faults);
        }

        return await query.RunAsync(tag, from, to, after, limit, cancellationToken) is { } page
            ? TypedResults.Json(new ListPage<ReadingRow>([.. page.Items.Select(ReadingRow.Of)], page.Next), ApiJson.Default.ListPageReadingRow)
            : Problems.Of(new SumpNotFound(tag), say);
    }
}
