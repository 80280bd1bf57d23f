using System.Security.Claims;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using ShopFluids.Core.CleanOuts;
using ShopFluids.Core.Database;
using ShopFluids.Core.Exchange;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.People;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Api.Json;
using ShopFluids.Web.Api.Readings;

namespace ShopFluids.Web.Api.CleanOuts;

/// <summary>Draining and cleaning step by step, up to the first reading of the new charge.</summary>
internal static class CleanOutApi
{
    private const string Round = "round";

    public static void MapCleanOutApi(this IEndpointRouteBuilder api)
    {
        api.MapGet("/clean-outs", ListAsync).WithName("ListCleanOuts").WithSummary("Clean-outs with their steps, the latest begun first").Produces<ListPage<CleanOutAnswer>>()
            .Produces<ApiProblem>(StatusCodes.Status400BadRequest, "application/problem+json");
        api.MapGet("/clean-outs/{id:guid}", ShowAsync).WithName("GetCleanOut").WithSummary("One clean-out with its steps").Produces<CleanOutAnswer>()
            .Produces<ApiProblem>(StatusCodes.Status404NotFound, "application/problem+json");
        api.MapGet("/sumps/{tag}/clean-out", ReadyAsync).WithName("GetCleanOutOfSump").WithSummary("The clean-out of a sump that is open, and the plan with its numbers that it goes by or that stands ready")
            .Produces<CleanOutReadyAnswer>()
            .Produces<ApiProblem>(StatusCodes.Status404NotFound, "application/problem+json")
            .Produces<ApiProblem>(StatusCodes.Status409Conflict, "application/problem+json");
        Describe<CleanOutRequest>(api.MapPost("/clean-outs", StartAsync), "StartCleanOut", "Begins a clean-out with its plan")
            .Produces<CleanOutAnswer>(StatusCodes.Status201Created)
            .Produces<CleanOutAnswer>();
        Describe<CleanOutStepRequest>(api.MapPut("/clean-outs/{id:guid}/steps/{step}", NoteAsync), "NoteCleanOutStep", "Ticks a step off with what was measured, or puts right what was noted before")
            .Produces<CleanOutAnswer>(StatusCodes.Status201Created)
            .Produces<CleanOutAnswer>();
        Describe<ReadingRequest>(api.MapPost("/clean-outs/{id:guid}/finish", FinishAsync), "FinishCleanOut", "Ends a clean-out by the first reading of the new charge: the old charge closed, the new one open, in one act")
            .Produces<FinishedCleanOutAnswer>(StatusCodes.Status201Created)
            .Produces<FinishedCleanOutAnswer>();
        Describe<CleanOutBreakOffRequest>(api.MapPost("/clean-outs/{id:guid}/break-off", BreakOffAsync), "BreakOffCleanOut", "Ends a clean-out that will not be finished; the charge stays")
            .Produces<CleanOutAnswer>();
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

    private static async Task<IResult> ListAsync(HttpRequest request, CleanOutsQuery query, ApiSentences sentences, CancellationToken cancellationToken)
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
        return TypedResults.Json(new ListPage<CleanOutAnswer>([.. page.Items.Select(c => CleanOutAnswer.Of(c, say))], page.Next), ApiJson.Default.ListPageCleanOutAnswer);
    }

    private static async Task<IResult> ShowAsync(Guid id, CleanOutsQuery query, ApiSentences sentences, CancellationToken cancellationToken) =>
        await AnswerAsync(id, query, await sentences.CurrentAsync(cancellationToken), StatusCodes.Status200OK, cancellationToken);

    private static async Task<IResult> ReadyAsync(string tag, CleanOutPageQuery query, ApiSentences sentences, CancellationToken cancellationToken)
    {
        var say = await sentences.CurrentAsync(cancellationToken);
        var page = await query.RunAsync(tag, cancellationToken);
        return page.Match(
            found => TypedResults.Json(CleanOutReadyAnswer.Of(found), ApiJson.Default.CleanOutReadyAnswer),
            error => (IResult)Problems.Of(error, say));
    }

    private static async Task<IResult> StartAsync(HttpContext http, ClaimsPrincipal user, NoteCleanOutStepHandler handler, CleanOutsQuery query, ApiSentences sentences) => await JsonBody.AnswerAsync(http, sentences, async (body, fields, say) =>
    {
        var id = fields.RequiredId(body, "id", "id");
        var sump = fields.RequiredText(body, "sump", "sump");
        var note = await CleanOutStepJson.ReadAsync(body, CleanOutStepKind.Plan, fields, _ => Task.FromResult<Guid?>(null));
        if (fields.Faults.Count > 0)
        {
            return Problems.Fields(fields.Faults);
        }

        // Not aborted with the connection: what has been sent whole is stored whole; the same holds below.
        var cleanOutId = id.GetValueOrDefault();
        var result = await handler.HandleAsync(new(cleanOutId, sump, CleanOutStepKind.Plan, 0, note), user.ToActor(), user.IsInRole(Roles.Supervisor), CancellationToken.None);
        if (result.Value is not { } noted)
        {
            return result.Error is CleanOutStepChanged or CleanOutNotFound
                ? await RefusedToStartAsync(cleanOutId, query, say)
                : Refused(result.Error, say);
        }

        if (noted.IsNew)
        {
            http.Response.Headers.Location = $"{http.Request.PathBase}/api/v1/clean-outs/{cleanOutId:D}";
        }

        return await AnswerAsync(cleanOutId, query, say, StatusOf(noted), CancellationToken.None);
    });

    private static async Task<IResult> NoteAsync(HttpContext http, Guid id, string step, ClaimsPrincipal user, NoteCleanOutStepHandler handler, CleanOutsQuery query, LotByNumberQuery lots, ApiSentences sentences) => await JsonBody.AnswerAsync(http, sentences, async (body, fields, say) =>
    {
        if (Enum.GetValues<CleanOutStepKind>().Where(k => Codes.Of(k) == step).Select(k => (CleanOutStepKind?)k).FirstOrDefault() is not { } kind)
        {
            return Problems.Make(StatusCodes.Status404NotFound, "stepNotFound", say.Format.Say(Texts.Api_StepUnknown, string.Join(", ", Enum.GetValues<CleanOutStepKind>().Select(Codes.Of))));
        }

        if (await query.OneAsync(id, http.RequestAborted) is not { } cleanOut)
        {
            return Problems.Of(new CleanOutNotFound(id), say);
        }

        var seen = fields.Whole(body, Round, Round, new AcceptedRange(0, int.MaxValue, "")) ?? 0;
        var note = await CleanOutStepJson.ReadAsync(body, kind, fields, number => lots.RunAsync(cleanOut.SumpTag, number, http.RequestAborted));
        if (fields.Faults.Count > 0)
        {
            return Problems.Fields(fields.Faults);
        }

        var result = await handler.HandleAsync(new(id, cleanOut.SumpTag, kind, seen, note), user.ToActor(), user.IsInRole(Roles.Supervisor), CancellationToken.None);
        return result.Value is { } noted
            ? await AnswerAsync(id, query, say, StatusOf(noted), CancellationToken.None)
            : Refused(result.Error, say);
    });

    private static async Task<IResult> FinishAsync(HttpContext http, Guid id, ClaimsPrincipal user, FinishCleanOutHandler handler, CleanOutsQuery query, ApiSentences sentences) => await JsonBody.AnswerAsync(http, sentences, async (body, fields, say) =>
    {
        var (reading, faults) = ReadingJson.Read(body, say);
        if (reading is null)
        {
            return Problems.Fields(faults);
        }

        if (await query.OneAsync(id, http.RequestAborted) is not { } cleanOut)
        {
            return Problems.Of(new CleanOutNotFound(id), say);
        }

        if (!string.Equals(cleanOut.SumpTag, reading.SumpTag.Trim(), StringComparison.OrdinalIgnoreCase))
        {
            fields.Refuse(FieldNames.Sump, FieldProblem.UnknownChoice);
            return Problems.Fields(fields.Faults);
        }

        var result = await handler.HandleAsync(new(id, reading), user.ToActor(), CancellationToken.None);
        if (result.Value is not { } finished)
        {
            return result.Error is CleanOutIsOver { ReadingId: { } ended } && ended == reading.Id
                ? Problems.Of(new OtherContentForId(reading.Id), say)
                : Refused(result.Error, say);
        }

        return await query.OneAsync(id, CancellationToken.None) is { } over
            ? TypedResults.Json(
                new FinishedCleanOutAnswer(CleanOutAnswer.Of(over, say), ReadingAnswer.Of(over.SumpTag, finished.Outcome, say)),
                ApiJson.Default.FinishedCleanOutAnswer,
                statusCode: finished.IsNew ? StatusCodes.Status201Created : StatusCodes.Status200OK)
            : Problems.Of(new CleanOutNotFound(id), say);
    });

    private static async Task<IResult> BreakOffAsync(HttpContext http, Guid id, ClaimsPrincipal user, BreakOffCleanOutHandler handler, CleanOutsQuery query, ApiSentences sentences) => await JsonBody.AnswerAsync(http, sentences, async (body, fields, say) =>
    {
        var reason = fields.RequiredText(body, CleanOutFields.Reason, CleanOutFields.Reason);
        if (fields.Faults.Count > 0)
        {
            return Problems.Fields(fields.Faults);
        }

        var result = await handler.HandleAsync(new(id, reason), user.ToActor(), CancellationToken.None);
        return result.Error is null ? await AnswerAsync(id, query, say, StatusCodes.Status200OK, CancellationToken.None) : Refused(result.Error, say);
    });

    private static async Task<IResult> AnswerAsync(Guid id, CleanOutsQuery query, Sentences say, int status, CancellationToken cancellationToken) =>
        await query.OneAsync(id, cancellationToken) is { } cleanOut
            ? TypedResults.Json(CleanOutAnswer.Of(cleanOut, say), ApiJson.Default.CleanOutAnswer, statusCode: status)
            : Problems.Of(new CleanOutNotFound(id), say);

    // The id is another one's, or was sent with another plan; else the sump has one that is open.
    private static async Task<IResult> RefusedToStartAsync(Guid id, CleanOutsQuery query, Sentences say) =>
        await query.OneAsync(id, CancellationToken.None) is not null
            ? Problems.Of(new OtherContentForId(id), say)
            : Problems.Make(StatusCodes.Status409Conflict, "cleanOutOpen", Texts.Api_CleanOutOpen);

    private static JsonHttpResult<ApiProblem> Refused(Error? error, Sentences say) => error switch
    {
        FieldErrors fields => Problems.Fields(CleanOutStepJson.OfBody(fields.Fields, say)),
        RefillNotPossible refill => Problems.Make(StatusCodes.Status409Conflict, "refillNotPossible", say.Error(refill), CleanOutStepJson.OfBody(refill.Fields, say)),
        { } other => Problems.Of(other, say),
        null => throw new InvalidOperationException("What was refused has an error."),
    };

    private static int StatusOf(NotedCleanOutStep noted) => noted is { IsNew: true, Round: 1 } ? StatusCodes.Status201Created : StatusCodes.Status200OK;
}
