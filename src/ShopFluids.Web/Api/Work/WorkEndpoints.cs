using System.Security.Claims;
using ShopFluids.Core.Care;
using ShopFluids.Core.Exchange;
using ShopFluids.Core.People;
using ShopFluids.Core.Time;
using ShopFluids.Web.Account;
using ShopFluids.Web.Api.Json;

namespace ShopFluids.Web.Api.Work;

/// <summary>Tasks and flags of all sumps.</summary>
internal static class WorkEndpoints
{
    public static void MapWork(this IEndpointRouteBuilder api)
    {
        api.MapGet("/tasks", TasksAsync).WithName("ListTasks").WithSummary("Tasks, the earliest due first").Produces<ListPage<TaskRow>>();
        api.MapGet("/flags", FlagsAsync).WithName("ListFlags").WithSummary("Flags, the latest raised first").Produces<ListPage<FlagRow>>();
        api.MapPost("/tasks/{id:guid}/done", DoneAsync).RequireAuthorization(Policies.CanOperate)
            .WithName("EndTask").WithSummary("Ticks a task off").Produces<EndedTaskAnswer>()
            .Produces<ApiProblem>(StatusCodes.Status404NotFound, "application/problem+json")
            .Produces<ApiProblem>(StatusCodes.Status409Conflict, "application/problem+json");
    }

    private static async Task<IResult> TasksAsync(HttpRequest request, TasksQuery query, ApiSentences sentences, ShopClock clock, CancellationToken cancellationToken)
    {
        var say = await sentences.CurrentAsync(cancellationToken);
        var asked = new ListRequest(request, say);
        var state = asked.Choice("state", "open", "done", "skipped", "withdrawn") switch
        {
            "done" => TaskState.Done,
            "skipped" => TaskState.Skipped,
            "withdrawn" => TaskState.Withdrawn,
            _ => TaskState.Open,
        };
        var (after, limit) = (asked.Place(), asked.Limit());
        if (asked.Faults.Count > 0)
        {
            return Problems.Fields(asked.Faults);
        }

        var page = await query.RunAsync(state, after, limit, cancellationToken);
        var now = clock.UtcNow;
        return TypedResults.Json(new ListPage<TaskRow>([.. page.Items.Select(t => TaskRow.Of(t, now, say))], page.Next), ApiJson.Default.ListPageTaskRow);
    }

    private static async Task<IResult> FlagsAsync(HttpRequest request, FlagsQuery query, ApiSentences sentences, CancellationToken cancellationToken)
    {
        var say = await sentences.CurrentAsync(cancellationToken);
        var asked = new ListRequest(request, say);
        var isOpen = asked.Choice("state", "open", "ended") == "open";
        var (after, limit) = (asked.Place(), asked.Limit());
        if (asked.Faults.Count > 0)
        {
            return Problems.Fields(asked.Faults);
        }

        var page = await query.RunAsync(isOpen, after, limit, cancellationToken);
        return TypedResults.Json(new ListPage<FlagRow>([.. page.Items.Select(f => FlagRow.Of(f, say))], page.Next), ApiJson.Default.ListPageFlagRow);
    }

    private static async Task<IResult> DoneAsync(Guid id, ClaimsPrincipal user, EndTaskHandler handler, ApiSentences sentences, CancellationToken cancellationToken)
    {
        var say = await sentences.CurrentAsync(cancellationToken);
        var result = await handler.HandleAsync(new EndTask(id, TaskState.Done), user.ToActor(), user.IsInRole(Roles.Supervisor), cancellationToken);
        return result.Match(
            ended => TypedResults.Json(new EndedTaskAnswer(ended.TaskId, Codes.Of(ended.State), ended.EndedAtUtc), ApiJson.Default.EndedTaskAnswer),
            error => (IResult)Problems.Of(error, say));
    }
}
