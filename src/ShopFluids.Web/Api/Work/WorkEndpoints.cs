using System.Security.Claims;
using Microsoft.AspNetCore.Mvc;
using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Finds;
using ShopFluids.Core.Exchange;
using ShopFluids.Core.People;
using ShopFluids.Core.ShopFlags;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;
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
        api.MapGet("/shop-flags", ShopFlagsAsync).WithName("ListShopFlags").WithSummary("Flags about lots, stocks and instruments, the latest raised first").Produces<ListPage<ShopFlagRow>>();
        api.MapPost("/tasks/{id:guid}/done", DoneAsync).RequireAuthorization(Policies.CanOperate)
            .WithName("EndTask").WithSummary("Ticks a task off, with what was found where that is sent; not tests, adjustments, dip slides, doses and drainings, which are done by what they are about")
            .WithMetadata(new RequestSizeLimitAttribute(JsonBody.MostBytes))
            .Accepts<FoundRequest>(isOptional: true, "application/json")
            .Produces<EndedTaskAnswer>()
            .Produces<ApiProblem>(StatusCodes.Status400BadRequest, "application/problem+json")
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

    private static async Task<IResult> ShopFlagsAsync(HttpRequest request, ShopFlagsQuery query, ApiSentences sentences, CancellationToken cancellationToken)
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
        return TypedResults.Json(new ListPage<ShopFlagRow>([.. page.Items.Select(f => ShopFlagRow.Of(f, say))], page.Next), ApiJson.Default.ListPageShopFlagRow);
    }

    private static async Task<IResult> DoneAsync(Guid id, HttpRequest request, ClaimsPrincipal user, EndTaskHandler handler, ApiSentences sentences, CancellationToken cancellationToken)
    {
        var say = await sentences.CurrentAsync(cancellationToken);
        var (found, refusal) = await FoundAsync(request, say, cancellationToken);
        if (refusal is not null)
        {
            return refusal;
        }

        var result = await handler.HandleAsync(new EndTask(id, TaskState.Done, Found: found), user.ToActor(), user.IsInRole(Roles.Supervisor), cancellationToken);
        return result.Match(
            ended => TypedResults.Json(new EndedTaskAnswer(ended.TaskId, Codes.Of(ended.State), ended.EndedAtUtc), ApiJson.Default.EndedTaskAnswer),
            error => (IResult)Problems.Of(error, say));
    }

    // Nothing need be sent: then nothing is said of what was found.
    private static async Task<(TypedFind? Found, IResult? Refusal)> FoundAsync(HttpRequest request, Sentences say, CancellationToken cancellationToken)
    {
        if (request.ContentLength is 0 || (request.ContentLength is null && request.ContentType is null))
        {
            return (null, null);
        }

        var (document, refusal) = await JsonBody.ReadAsync(request, cancellationToken);
        if (document is null)
        {
            return (null, refusal);
        }

        using (document)
        {
            var (found, faults) = FoundJson.Read(document.RootElement, say);
            return (found, faults.Count > 0 ? Problems.Fields(faults) : null);
        }
    }
}
