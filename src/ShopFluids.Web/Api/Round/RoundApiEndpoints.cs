using System.Security.Claims;
using System.Text.Json;
using Microsoft.AspNetCore.Mvc;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Rounds;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Api.Json;

namespace ShopFluids.Web.Api.Round;

/// <summary>The round of this shop day, and passing sumps by on it.</summary>
internal static class RoundApiEndpoints
{
    public static void MapRoundApi(this IEndpointRouteBuilder api)
    {
        api.MapGet("/round", ShowAsync).WithName("Round").WithSummary("What is due on this shop day's round, what was read and what was passed by").Produces<RoundAnswer>();
        api.MapPost("/round/skips", SkipAsync).RequireAuthorization(Policies.CanOperate)
            .WithName("SkipStops").WithSummary("Passes sumps by on this shop day's round with a reason; their tests stay due")
            .WithMetadata(new RequestSizeLimitAttribute(JsonBody.MostBytes))
            .Accepts<SkipRequest>("application/json")
            .Produces<SkippedAnswer>()
            .Produces<ApiProblem>(StatusCodes.Status400BadRequest, "application/problem+json")
            .Produces<ApiProblem>(StatusCodes.Status404NotFound, "application/problem+json")
            .Produces<ApiProblem>(StatusCodes.Status409Conflict, "application/problem+json")
            .Produces<ApiProblem>(StatusCodes.Status422UnprocessableEntity, "application/problem+json");
    }

    private static async Task<IResult> ShowAsync(RoundPageQuery round, CancellationToken cancellationToken) =>
        TypedResults.Json(RoundAnswer.Of(await round.RunAsync(cancellationToken)), ApiJson.Default.RoundAnswer);

    private static async Task<IResult> SkipAsync(HttpRequest request, ClaimsPrincipal user, SkipStopsHandler handler, ApiSentences sentences, ShopClock clock, CancellationToken cancellationToken)
    {
        var say = await sentences.CurrentAsync(cancellationToken);
        var (document, refusal) = await JsonBody.ReadAsync(request, cancellationToken);
        if (document is null)
        {
            return refusal ?? TypedResults.BadRequest();
        }

        using (document)
        {
            var (command, faults) = Read(document.RootElement, say, clock);
            if (command is null)
            {
                return Problems.Fields(faults);
            }

            var result = await handler.HandleAsync(command, user.ToActor(), cancellationToken);
            return result.Match(
                skipped => TypedResults.Json(new SkippedAnswer(skipped.Skipped, skipped.NotDue), ApiJson.Default.SkippedAnswer),
                error => (IResult)Problems.Of(error, say));
        }
    }

    private static (SkipStops? Command, IReadOnlyList<ApiField> Faults) Read(JsonElement body, Sentences say, ShopClock clock)
    {
        var fields = new JsonFields(say);
        var id = fields.Id(body, FieldNames.Id, FieldNames.Id);
        var tags = fields.TextList(body, SkipStopsHandler.SumpsField, SkipStopsHandler.SumpsField) ?? [];
        var code = fields.RequiredText(body, SkipStopsHandler.ReasonField, SkipStopsHandler.ReasonField);
        var reason = Enum.GetValues<SkipReason>().Where(r => Codes.Of(r) == code).Select(r => (SkipReason?)r).FirstOrDefault();
        if (reason is null && code.Length > 0)
        {
            fields.Refuse(SkipStopsHandler.ReasonField, FieldProblem.UnknownChoice);
        }

        var words = fields.Text(body, SkipStopsHandler.WordsField, SkipStopsHandler.WordsField) ?? "";
        return fields.Faults.Count > 0 ? (null, fields.Faults) : (new SkipStops(id ?? clock.NewId(), tags, reason, words), []);
    }
}
