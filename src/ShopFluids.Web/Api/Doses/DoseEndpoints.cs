using System.Security.Claims;
using System.Text.Json;
using Microsoft.AspNetCore.Mvc;
using ShopFluids.Calculations.Additives;
using ShopFluids.Core.Doses;
using ShopFluids.Core.People;
using ShopFluids.Core.Readings;
using ShopFluids.Web.Account;
using ShopFluids.Web.Api.Json;

namespace ShopFluids.Web.Api.Doses;

/// <summary>Noting an additive that was dosed, by which dosing that the sump's plan asks for is done, and striking out what was noted by mistake.</summary>
internal static class DoseEndpoints
{
    private const string Id = "id";
    private const string Sump = "sump";

    public static void MapDoses(this IEndpointRouteBuilder api)
    {
        Describe<DoseRequest, DoseAnswer>(api.MapPost("/doses", NoteAsync), Policies.CanOperate)
            .WithName("NoteDose").WithSummary("Notes an additive that was put into a sump, held against its label");
        Describe<DoseStrikeRequest, DoseStrikeAnswer>(api.MapPost("/doses/{id:guid}/strike-out", StrikeAsync), Policies.CanSupervise)
            .WithName("StrikeOutDose").WithSummary("Strikes out a dose that was noted by mistake: it stays, and counts for nothing");
    }

    private static RouteHandlerBuilder Describe<TRequest, TAnswer>(RouteHandlerBuilder route, string policy)
        where TRequest : notnull => route
        .RequireAuthorization(policy)
        .WithMetadata(new RequestSizeLimitAttribute(JsonBody.MostBytes))
        .Accepts<TRequest>("application/json")
        .Produces<TAnswer>(StatusCodes.Status201Created)
        .Produces<TAnswer>()
        .Produces<ApiProblem>(StatusCodes.Status400BadRequest, "application/problem+json")
        .Produces<ApiProblem>(StatusCodes.Status404NotFound, "application/problem+json")
        .Produces<ApiProblem>(StatusCodes.Status409Conflict, "application/problem+json")
        .Produces<ApiProblem>(StatusCodes.Status422UnprocessableEntity, "application/problem+json");

    private static async Task<IResult> NoteAsync(HttpContext http, ClaimsPrincipal user, NoteDoseHandler handler, ApiSentences sentences) => await JsonBody.AnswerAsync(http, sentences, async (body, fields, say) =>
    {
        var command = Read(body, fields);
        if (fields.Faults.Count > 0)
        {
            return Problems.Fields(fields.Faults);
        }

        // Not aborted with the connection: what has been sent whole is stored whole.
        var result = await handler.HandleAsync(command, user.ToActor(), user.IsInRole(Roles.Supervisor), CancellationToken.None);
        return result.Match(
            noted => TypedResults.Json(
                new DoseAnswer(noted.Id, command.SumpTag, noted.Reached, DoseUnits.Of(noted.Measure), noted.ReentryUntilUtc),
                ApiJson.Default.DoseAnswer,
                statusCode: noted.IsNew ? StatusCodes.Status201Created : StatusCodes.Status200OK),
            error => (IResult)Problems.Of(error, say));
    });

    private static async Task<IResult> StrikeAsync(HttpContext http, Guid id, ClaimsPrincipal user, StrikeDoseHandler handler, ApiSentences sentences) => await JsonBody.AnswerAsync(http, sentences, async (body, fields, say) =>
    {
        var command = new StrikeDose(fields.RequiredId(body, Id, Id).GetValueOrDefault(), id, fields.RequiredText(body, DoseFields.StrikeReason, DoseFields.StrikeReason));
        if (fields.Faults.Count > 0)
        {
            return Problems.Fields(fields.Faults);
        }

        var result = await handler.HandleAsync(command, user.ToActor(), CancellationToken.None);
        return result.Match(
            struck => TypedResults.Json(
                new DoseStrikeAnswer(struck.DoseId, struck.SumpTag), ApiJson.Default.DoseStrikeAnswer, statusCode: struck.IsNew ? StatusCodes.Status201Created : StatusCodes.Status200OK),
            error => (IResult)Problems.Of(error, say));
    });

    private static NoteDose Read(JsonElement body, JsonFields fields)
    {
        var id = fields.RequiredId(body, Id, Id);
        var sump = fields.RequiredText(body, Sump, Sump);
        var givenAt = fields.RequiredInstant(body, DoseFields.GivenAt, DoseFields.GivenAt);
        var product = fields.RequiredText(body, DoseFields.Product, DoseFields.Product);
        var kind = fields.RequiredText(body, DoseFields.Kind, DoseFields.Kind);
        var amount = Required(DoseFields.Amount, new(DoseChecks.LeastAmount, DoseChecks.MostAmount, ""));
        var unit = fields.RequiredText(body, DoseFields.Unit, DoseFields.Unit);
        var volume = Required(DoseFields.Volume, null);
        var measure = fields.Text(body, DoseFields.LabelMeasure, DoseFields.LabelMeasure);
        var density = fields.Number(body, DoseFields.Density, DoseFields.Density, new(DoseChecks.LeastDensity, DoseChecks.MostDensity, "kg/L"));
        var most = fields.Number(body, DoseFields.LabelMost, DoseFields.LabelMost);
        var hours = fields.Number(body, DoseFields.LabelHours, DoseFields.LabelHours, new(0, DoseChecks.MostLabelHours, "h"));
        var reentry = fields.Number(body, DoseFields.ReentryHours, DoseFields.ReentryHours, new(0, DoseChecks.MostReentryHours, "h"));
        var reason = fields.RequiredText(body, DoseFields.Reason, DoseFields.Reason);
        var allTheSame = fields.Text(body, DoseFields.AgainstLabel, DoseFields.AgainstLabel);
        var isConfirmed = fields.Flag(body, DoseFields.Safety, DoseFields.Safety);

        // A word that stands for none of the choices is refused with the rest, once the sump is known to be one.
        return new(
            id.GetValueOrDefault(),
            sump,
            givenAt.GetValueOrDefault(),
            product,
            Enum.GetValues<DoseKind>().FirstOrDefault(k => Codes.Of(k) == kind),
            amount,
            Enum.GetValues<DoseUnit>().FirstOrDefault(u => DoseUnits.Of(u) == unit),
            volume,
            reason)
        {
            Measure = measure is null ? null : Enum.GetValues<DoseMeasure>().FirstOrDefault(m => DoseUnits.Of(m) == measure),
            DensityKgPerLitre = density,
            LabelMost = most,
            LabelHours = hours,
            ReentryHours = reentry,
            AgainstLabelReason = allTheSame,
            IsSafetyConfirmed = isConfirmed,
        };

        decimal Required(string name, AcceptedRange? range)
        {
            fields.RequireGiven(body, name, name);
            return fields.Number(body, name, name, range) ?? 0;
        }
    }
}
