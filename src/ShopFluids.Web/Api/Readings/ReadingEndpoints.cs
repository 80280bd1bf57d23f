using System.Security.Claims;
using Microsoft.AspNetCore.Mvc;
using ShopFluids.Core.Exchange;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Account.Stations;
using ShopFluids.Web.Api.Json;

namespace ShopFluids.Web.Api.Readings;

internal static class ReadingEndpoints
{
    public static void MapReadings(this IEndpointRouteBuilder api)
    {
        api.MapPost("/readings", RecordAsync)
            .RequireAuthorization(Policies.CanOperate)
            .WithMetadata(new RequestSizeLimitAttribute(JsonBody.MostBytes))
            .WithName("RecordReading").WithSummary("Stores a reading and answers what it means")
            .Accepts<ReadingRequest>("application/json")
            .Produces<ReadingAnswer>(StatusCodes.Status201Created)
            .Produces<ReadingAnswer>()
            .Produces<ApiProblem>(StatusCodes.Status400BadRequest, "application/problem+json")
            .Produces<ApiProblem>(StatusCodes.Status404NotFound, "application/problem+json")
            .Produces<ApiProblem>(StatusCodes.Status409Conflict, "application/problem+json")
            .Produces<ApiProblem>(StatusCodes.Status422UnprocessableEntity, "application/problem+json");
        api.MapPost("/readings/preview", PreviewAsync)
            .WithMetadata(new RequestSizeLimitAttribute(JsonBody.MostBytes), new AtStation())
            .WithName("PreviewReading").WithSummary("Answers what storing would answer, and stores nothing")
            .Accepts<ReadingRequest>("application/json")
            .Produces<ReadingAnswer>()
            .Produces<ApiProblem>(StatusCodes.Status400BadRequest, "application/problem+json");
        api.MapGet("/readings/{id:guid}", ShowAsync)
            .WithName("GetReading").WithSummary("What a stored reading led to")
            .Produces<ReadingAnswer>()
            .Produces<ApiProblem>(StatusCodes.Status404NotFound, "application/problem+json");
    }

    private static async Task<IResult> RecordAsync(HttpContext http, ClaimsPrincipal user, RecordReadingHandler handler, ApiSentences sentences)
    {
        var (command, refusal, say) = await ReadAsync(http, sentences);
        if (command is null)
        {
            return refusal;
        }

        // Not aborted with the connection: what has been sent whole is stored whole, and a repeat gets its answer.
        var result = await handler.HandleAsync(command, user.ToActor(), CancellationToken.None);
        return result.Match(
            recorded =>
            {
                if (recorded.IsNew)
                {
                    http.Response.Headers.Location = $"{http.Request.PathBase}/api/v1/readings/{recorded.Outcome.ReadingId:D}";
                }

                return TypedResults.Json(
                    ReadingAnswer.Of(command.SumpTag, recorded.Outcome, say),
                    ApiJson.Default.ReadingAnswer,
                    statusCode: recorded.IsNew ? StatusCodes.Status201Created : StatusCodes.Status200OK);
            },
            error => (IResult)Problems.Of(error, say));
    }

    private static async Task<IResult> PreviewAsync(HttpContext http, ClaimsPrincipal user, PreviewReadingQuery query, ApiSentences sentences)
    {
        var (command, refusal, _) = await ReadAsync(http, sentences);
        if (command is null)
        {
            return refusal;
        }

        // The page writes it beside the box while somebody types.
        var say = await sentences.InUnitsAsync(user.ChosenUnits(), http.RequestAborted);

        var result = await query.RunAsync(command, http.RequestAborted);
        return result.Match(
            outcome => TypedResults.Json(ReadingAnswer.Of(command.SumpTag, outcome, say), ApiJson.Default.ReadingAnswer),
            error => (IResult)Problems.Of(error, say));
    }

    private static async Task<IResult> ShowAsync(Guid id, StoredReadingsQuery query, ApiSentences sentences, CancellationToken cancellationToken) =>
        await query.OneAsync(id, cancellationToken) is { } stored
            ? TypedResults.Json(ReadingAnswer.Of(stored.SumpTag, stored.Outcome, await sentences.CurrentAsync(cancellationToken)), ApiJson.Default.ReadingAnswer)
            : Problems.Make(StatusCodes.Status404NotFound, "readingNotFound", Texts.Api_ReadingUnknown);

    private static async Task<(RecordReading? Command, IResult Refusal, Sentences Say)> ReadAsync(HttpContext http, ApiSentences sentences)
    {
        var say = await sentences.CurrentAsync(http.RequestAborted);
        var (document, refusal) = await JsonBody.ReadAsync(http.Request, http.RequestAborted);
        using (document)
        {
            if (document is null)
            {
                return (null, refusal ?? Results.BadRequest(), say);
            }

            var (command, faults) = ReadingJson.Read(document.RootElement, say);
            return (command, Problems.Fields(faults), say);
        }
    }
}
