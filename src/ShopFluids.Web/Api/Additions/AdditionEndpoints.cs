using System.Security.Claims;
using System.Text.Json;
using Microsoft.AspNetCore.Mvc;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.People;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Api.Json;

namespace ShopFluids.Web.Api.Additions;

/// <summary>Noting what was poured, such as by a dosing pump; the sump's open adjustment is done by it.</summary>
internal static class AdditionEndpoints
{
    private const string Water = "waterLitres";
    private const string Concentrate = "concentrateLitres";
    private const string Removed = "removedLitres";
    private const string Lot = "lot";
    private const string AddedAt = "addedAt";
    private const string Reading = "reading";

    public static void MapAdditions(this IEndpointRouteBuilder api) => api.MapPost("/additions", RecordAsync)
        .RequireAuthorization(Policies.CanOperate)
        .WithMetadata(new RequestSizeLimitAttribute(JsonBody.MostBytes))
        .WithName("RecordAddition").WithSummary("Notes what was added to a sump; its open adjustment is done by it")
        .Accepts<AdditionRequest>("application/json")
        .Produces<AdditionAnswer>(StatusCodes.Status201Created)
        .Produces<AdditionAnswer>()
        .Produces<ApiProblem>(StatusCodes.Status400BadRequest, "application/problem+json")
        .Produces<ApiProblem>(StatusCodes.Status404NotFound, "application/problem+json")
        .Produces<ApiProblem>(StatusCodes.Status409Conflict, "application/problem+json")
        .Produces<ApiProblem>(StatusCodes.Status422UnprocessableEntity, "application/problem+json");

    private static async Task<IResult> RecordAsync(HttpContext http, ClaimsPrincipal user, RecordAdditionHandler handler, LotByNumberQuery lots, ApiSentences sentences)
    {
        var say = await sentences.CurrentAsync(http.RequestAborted);
        var (document, refusal) = await JsonBody.ReadAsync(http.Request, http.RequestAborted);
        using (document)
        {
            if (document is null)
            {
                return refusal ?? Results.BadRequest();
            }

            var (command, faults) = await ReadAsync(document.RootElement, say, lots, http.RequestAborted);
            if (command is null)
            {
                return Problems.Fields(faults);
            }

            // Not aborted with the connection: what has been sent whole is stored whole.
            var result = await handler.HandleAsync(command, user.ToActor(), user.IsInRole(Roles.Supervisor), CancellationToken.None);
            return result.Match(
                stored => TypedResults.Json(
                    new AdditionAnswer(stored.Id, command.SumpTag, stored.VolumeLitres),
                    ApiJson.Default.AdditionAnswer,
                    statusCode: stored.IsNew ? StatusCodes.Status201Created : StatusCodes.Status200OK),
                error => (IResult)Problems.Of(error, say));
        }
    }

    private static async Task<(RecordAddition? Command, IReadOnlyList<ApiField> Faults)> ReadAsync(JsonElement body, Sentences say, LotByNumberQuery lots, CancellationToken cancellationToken)
    {
        var fields = new JsonFields(say);
        var id = fields.RequiredId(body, "id", "id");
        var sump = fields.RequiredText(body, "sump", "sump");
        var addedAt = fields.RequiredInstant(body, AddedAt, AddedAt);
        var (water, concentrate, removed) = (Amount(Water), Amount(Concentrate), Amount(Removed));
        var number = fields.Text(body, Lot, Lot);
        var reading = fields.Id(body, Reading, Reading);

        // A number that no lot has is refused with the rest, once the sump is known to be one.
        Guid? lot = number is null ? null : await lots.RunAsync(sump, number, cancellationToken) ?? Guid.Empty;
        return fields.Faults.Count == 0
            ? (new RecordAddition(id.GetValueOrDefault(), sump, addedAt.GetValueOrDefault(), water, concentrate, removed, lot, reading), [])
            : (null, fields.Faults);

        decimal Amount(string name) => fields.Number(body, name, name, new(0, RecordAdditionHandler.MaximumLitres, "L")) ?? 0;
    }
}
