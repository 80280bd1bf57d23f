using System.Security.Claims;
using Microsoft.AspNetCore.Mvc;
using ShopFluids.Core.Care.Shutdowns;
using ShopFluids.Core.Exchange;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Time;
using ShopFluids.Web.Account;
using ShopFluids.Web.Api.Json;

namespace ShopFluids.Web.Api.Shutdowns;

/// <summary>Shutdowns of one machine or of the whole shop: listed, planned, ended.</summary>
internal static class ShutdownApi
{
    public static void MapShutdowns(this IEndpointRouteBuilder api)
    {
        api.MapGet("/shutdowns", ListAsync).WithName("ListShutdowns").WithSummary("Shutdowns that are planned or stand (?state=open), or that are over or withdrawn (?state=ended), the latest first")
            .Produces<ListPage<ShutdownAnswer>>()
            .Produces<ApiProblem>(StatusCodes.Status400BadRequest, "application/problem+json");
        api.MapPost("/shutdowns", PlanAsync).RequireAuthorization(Policies.CanSupervise)
            .WithName("PlanShutdown").WithSummary("Plans days on which a machine, or the whole shop, stands; the work before, meanwhile and after is made at once")
            .WithMetadata(new RequestSizeLimitAttribute(JsonBody.MostBytes))
            .Accepts<ShutdownRequest>("application/json")
            .Produces<PlannedShutdownAnswer>(StatusCodes.Status201Created)
            .Produces<PlannedShutdownAnswer>()
            .Produces<ApiProblem>(StatusCodes.Status400BadRequest, "application/problem+json")
            .Produces<ApiProblem>(StatusCodes.Status404NotFound, "application/problem+json")
            .Produces<ApiProblem>(StatusCodes.Status409Conflict, "application/problem+json")
            .Produces<ApiProblem>(StatusCodes.Status422UnprocessableEntity, "application/problem+json");
        api.MapPost("/shutdowns/{id:guid}/end", EndAsync).RequireAuthorization(Policies.CanSupervise)
            .WithName("EndShutdown").WithSummary("Ends a shutdown today: one that has not begun does not take place, one that stands had its last day yesterday")
            .Produces<ShutdownAnswer>()
            .Produces<ApiProblem>(StatusCodes.Status404NotFound, "application/problem+json")
            .Produces<ApiProblem>(StatusCodes.Status409Conflict, "application/problem+json");
    }

    private static async Task<IResult> ListAsync(HttpRequest request, SetupCache setups, ShutdownWorkQuery planned, ShopClock clock, ApiSentences sentences, CancellationToken cancellationToken)
    {
        var asked = new ListRequest(request, await sentences.CurrentAsync(cancellationToken));
        var isOpen = asked.Choice("state", "open", "ended") == "open";
        if (asked.Faults.Count > 0)
        {
            return Problems.Fields(asked.Faults);
        }

        var setup = await setups.CurrentAsync(cancellationToken);
        var today = setup.Calendar.ShopDayOf(clock.UtcNow);
        var rows = setup.Shutdowns.Where(s => (s.StateOn(today) is ShutdownState.Planned or ShutdownState.Standing) == isOpen).OrderByDescending(s => s.FirstDay).ThenBy(s => s.Id);
        var work = await planned.RunAsync(cancellationToken);
        return TypedResults.Json(new ListPage<ShutdownAnswer>([.. rows.Select(s => ShutdownAnswer.Of(s, setup, today, work))], null), ApiJson.Default.ListPageShutdownAnswer);
    }

    private static async Task<IResult> PlanAsync(HttpContext http, ClaimsPrincipal user, PlanShutdownHandler handler, SetupCache setups, ShutdownWorkQuery work, ShopClock clock, ApiSentences sentences) => await JsonBody.AnswerAsync(http, sentences, async (body, fields, say) =>
    {
        var id = fields.RequiredId(body, "id", "id");
        var sump = fields.Text(body, "sump", "sump");
        var firstDay = fields.RequiredDay(body, "firstDay", "firstDay");
        var lastDay = fields.RequiredDay(body, "lastDay", "lastDay");
        var reason = fields.RequiredText(body, "reason", "reason");
        if (fields.Faults.Count > 0)
        {
            return Problems.Fields(fields.Faults);
        }

        // Not aborted with the connection: what has been sent whole is stored whole.
        var result = await handler.HandleAsync(new(id.GetValueOrDefault(), sump, firstDay.GetValueOrDefault(), lastDay.GetValueOrDefault(), reason), user.ToActor(), CancellationToken.None);
        if (result.Value is not { } planned)
        {
            return Problems.Of(result.Error ?? new ShutdownNotFound(id.GetValueOrDefault()), say);
        }

        return TypedResults.Json(
            new PlannedShutdownAnswer(await AnswerAsync(planned.Id, setups, work, clock), planned.Tasks),
            ApiJson.Default.PlannedShutdownAnswer,
            statusCode: planned.IsNew ? StatusCodes.Status201Created : StatusCodes.Status200OK);
    });

    private static async Task<IResult> EndAsync(Guid id, ClaimsPrincipal user, EndShutdownHandler handler, SetupCache setups, ShutdownWorkQuery work, ShopClock clock, ApiSentences sentences)
    {
        var say = await sentences.CurrentAsync(CancellationToken.None);
        var result = await handler.HandleAsync(new EndShutdown(id), user.ToActor(), CancellationToken.None);
        return result.Error is { } error ? Problems.Of(error, say) : TypedResults.Json(await AnswerAsync(id, setups, work, clock), ApiJson.Default.ShutdownAnswer);
    }

    private static async Task<ShutdownAnswer> AnswerAsync(Guid id, SetupCache setups, ShutdownWorkQuery work, ShopClock clock)
    {
        var setup = await setups.CurrentAsync(CancellationToken.None);
        return ShutdownAnswer.Of(setup.Shutdowns.First(s => s.Id == id), setup, setup.Calendar.ShopDayOf(clock.UtcNow), await work.RunAsync(CancellationToken.None));
    }
}
