using System.Security.Claims;
using Microsoft.AspNetCore.Mvc;
using ShopFluids.Core.Exchange;
using ShopFluids.Core.Slides;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Web.Account;
using ShopFluids.Web.Api.Json;
using ShopFluids.Web.Api.Readings;

namespace ShopFluids.Web.Api.Slides;

/// <summary>Dip slides: started, read, discarded, listed.</summary>
internal static class SlideApi
{
    private const string Reading = "reading";
    private const string Unit = "unit";

    public static void MapSlides(this IEndpointRouteBuilder api)
    {
        api.MapGet("/slides", ListAsync).WithName("ListSlides").WithSummary("Dip slides, the latest dipped first").Produces<ListPage<SlideRow>>();
        Describe<SlideRequest>(api.MapPost("/slides", StartAsync), "StartSlide", "Notes that a dip slide was dipped; to read it becomes work")
            .Produces<StartedSlideAnswer>(StatusCodes.Status201Created)
            .Produces<StartedSlideAnswer>();
        Describe<SlideReadRequest>(api.MapPost("/slides/{id:guid}/read", ReadAsync), "ReadSlide", "Stores what was read of a slide, as measured when it was dipped")
            .Produces<EndedSlideAnswer>(StatusCodes.Status201Created)
            .Produces<EndedSlideAnswer>();
        Describe<SlideDiscardRequest>(api.MapPost("/slides/{id:guid}/discard", DiscardAsync), "DiscardSlide", "Ends a slide of which nothing is read")
            .Produces<EndedSlideAnswer>();
    }

    private static RouteHandlerBuilder Describe<T>(RouteHandlerBuilder route, string name, string summary)
        where T : notnull => route
        .RequireAuthorization(Policies.CanOperate)
        .WithMetadata(new RequestSizeLimitAttribute(JsonBody.MostBytes))
        .WithName(name).WithSummary(summary)
        .Accepts<T>("application/json")
        .Produces<ApiProblem>(StatusCodes.Status400BadRequest, "application/problem+json")
        .Produces<ApiProblem>(StatusCodes.Status404NotFound, "application/problem+json")
        .Produces<ApiProblem>(StatusCodes.Status409Conflict, "application/problem+json")
        .Produces<ApiProblem>(StatusCodes.Status422UnprocessableEntity, "application/problem+json");

    private static async Task<IResult> ListAsync(HttpRequest request, SlidesQuery query, ApiSentences sentences, CancellationToken cancellationToken)
    {
        var asked = new ListRequest(request, await sentences.CurrentAsync(cancellationToken));
        var isOpen = asked.Choice("state", "open", "ended") == "open";
        var (after, limit) = (asked.Place(), asked.Limit());
        if (asked.Faults.Count > 0)
        {
            return Problems.Fields(asked.Faults);
        }

        var page = await query.RunAsync(isOpen, after, limit, cancellationToken);
        return TypedResults.Json(new ListPage<SlideRow>([.. page.Items.Select(SlideRow.Of)], page.Next), ApiJson.Default.ListPageSlideRow);
    }

    private static async Task<IResult> StartAsync(HttpContext http, ClaimsPrincipal user, StartSlideHandler handler, ApiSentences sentences) => await JsonBody.AnswerAsync(http, sentences, async (body, fields, say) =>
    {
        var id = fields.RequiredId(body, "id", "id");
        var sump = fields.RequiredText(body, "sump", "sump");
        var kept = fields.RequiredText(body, SlideFields.Incubation, SlideFields.Incubation);
        var dippedAt = fields.RequiredInstant(body, SlideFields.DippedAt, SlideFields.DippedAt);
        var parameter = fields.Text(body, SlideFields.Parameter, SlideFields.Parameter) ?? ParameterCodes.Bacteria;
        if (fields.Faults.Count > 0)
        {
            return Problems.Fields(fields.Faults);
        }

        var incubation = Enum.GetValues<SlideIncubation>().FirstOrDefault(i => Codes.Of(i) == kept);
        var result = await handler.HandleAsync(new(id.GetValueOrDefault(), sump, parameter, incubation, dippedAt.GetValueOrDefault()), user.ToActor(), CancellationToken.None);
        return result.Match(
            started => TypedResults.Json(
                new StartedSlideAnswer(started.Id, sump, started.ReadFromUtc, started.ReadUntilUtc),
                ApiJson.Default.StartedSlideAnswer,
                statusCode: started.IsNew ? StatusCodes.Status201Created : StatusCodes.Status200OK),
            error => (IResult)Problems.Of(error, say));
    });

    private static async Task<IResult> ReadAsync(HttpContext http, Guid id, ClaimsPrincipal user, EndSlideHandler handler, ApiSentences sentences) => await JsonBody.AnswerAsync(http, sentences, async (body, fields, say) =>
    {
        var reading = fields.RequiredId(body, Reading, Reading);
        var readAt = fields.RequiredInstant(body, SlideFields.ReadAt, SlideFields.ReadAt);
        fields.RequireGiven(body, SlideFields.Value, SlideFields.Value);
        var value = fields.Number(body, SlideFields.Value, SlideFields.Value);
        var unit = fields.Text(body, Unit, Unit);
        return fields.Faults.Count > 0
            ? Problems.Fields(fields.Faults)
            : await EndAsync(handler, new(id, new(reading.GetValueOrDefault(), readAt.GetValueOrDefault(), value.GetValueOrDefault(), unit)), user, say);
    });

    private static async Task<IResult> DiscardAsync(HttpContext http, Guid id, ClaimsPrincipal user, EndSlideHandler handler, ApiSentences sentences) => await JsonBody.AnswerAsync(http, sentences, async (body, fields, say) =>
    {
        var reason = fields.RequiredText(body, SlideFields.Reason, SlideFields.Reason);
        return fields.Faults.Count > 0 ? Problems.Fields(fields.Faults) : await EndAsync(handler, new(id, null, reason), user, say);
    });

    // Not aborted with the connection: what has been sent whole is stored whole.
    private static async Task<IResult> EndAsync(EndSlideHandler handler, EndSlide command, ClaimsPrincipal user, Sentences say)
    {
        var result = await handler.HandleAsync(command, user.ToActor(), CancellationToken.None);
        return result.Match(
            ended => TypedResults.Json(
                new EndedSlideAnswer(
                    ended.SlideId,
                    Codes.Of(command.Read is null ? SlideEnd.Discarded : SlideEnd.Read),
                    ended.IsLate,
                    ended.Outcome is { } outcome ? ReadingAnswer.Of(ended.SumpTag, outcome, say) : null),
                ApiJson.Default.EndedSlideAnswer,
                statusCode: ended.IsNew && command.Read is not null ? StatusCodes.Status201Created : StatusCodes.Status200OK),
            error => (IResult)Problems.Of(error, say));
    }
}
