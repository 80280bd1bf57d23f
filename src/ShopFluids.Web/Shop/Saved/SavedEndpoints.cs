using Microsoft.AspNetCore.Http.HttpResults;
using ShopFluids.Core.Care;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Rounds;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;

namespace ShopFluids.Web.Shop.Saved;

/// <summary>What a reading led to, and noting what was done about it.</summary>
internal static class SavedEndpoints
{
    private const string Path = "/enter/{tag}/saved/{id:guid}";

    public static void MapSaved(this IEndpointRouteBuilder app)
    {
        app.MapGet(Path, ShowAsync);
        app.MapPost(Path + "/added", AddAsync).RequireAuthorization(Policies.CanOperate).WithMetadata(new KeepsWhatWasTyped());
        app.MapPost(Path + "/tasks/{taskId:guid}", EndTaskAsync).RequireAuthorization(Policies.CanOperate).WithMetadata(new KeepsWhatWasTyped());
        // A refused form stands at the address it was posted to; opened again, that address leads back.
        app.MapGet(Path + "/added", (HttpContext http, string tag, Guid id) => Results.Redirect(new ShopLinks(http.Request.PathBase).Saved(tag, id)));
        app.MapGet(Path + "/tasks/{taskId:guid}", (HttpContext http, string tag, Guid id) => Results.Redirect(new ShopLinks(http.Request.PathBase).Saved(tag, id)));
    }

    private static Task<IResult> ShowAsync(HttpContext http, string tag, Guid id, Pages pages, string? paper) => pages.WithAsync(http, tag, id, view => Task.FromResult<IResult>(Document(view with { Paper = paper ?? "" })));

    private static Task<IResult> AddAsync(HttpContext http, string tag, Guid id, Pages pages, RecordAdditionHandler handler, ShopClock clock) => pages.WithAsync(http, tag, id, async view =>
    {
        var post = await FormPost.ReadAsync(http);
        var form = AdditionForm.Read(post, clock.NewId());
        if (!post.IsOurs)
        {
            return Document(view with { Addition = form, Notice = Texts.Entry_FormTooOld });
        }

        var amounts = form.AmountsIn(view.Visit.Format.Units, view.Page.Outcome.Recipe);
        if (amounts.Faults.Count > 0)
        {
            return Refused(view, form, amounts.Faults);
        }

        var command = form.ToCommand(amounts, view.Tag, clock.UtcNow, id);
        // Stored also when the tablet goes out of reach before it hears so; the same holds for the task below.
        var result = await handler.HandleAsync(command, view.Visit.Actor, view.Visit.IsSupervisor, CancellationToken.None);
        return result.Error switch
        {
            // The button was pressed on two tablets: the recipe is poured once.
            null or RecipeFollowedAlready => SeeOther.At(http, view.Visit.Links.Saved(view.Tag, id)),
            FieldErrors errors => Refused(view, form, errors.Fields),
            AdditionDoubted doubted => Document(view with { Addition = form, Questions = [.. doubted.Doubts.Select(view.Visit.Sentences.Doubt)] }),
            var error => ShopPages.NotPossible(view.Visit, view.Tag, error),
        };
    });

    private static Task<IResult> EndTaskAsync(HttpContext http, string tag, Guid id, Guid taskId, Pages pages, EndTaskHandler handler) => pages.WithAsync(http, tag, id, async view =>
    {
        var post = await FormPost.ReadAsync(http);
        var (reason, typed) = (post.Text("reason"), FindInput.Read(post));
        var state = post.Text("state") == "skipped" ? TaskState.Skipped : TaskState.Done;
        IResult Fault(string sentence) => Document(view with { TaskFault = new(taskId, sentence, reason, typed, state == TaskState.Done) });
        if (!post.IsOurs)
        {
            return Fault(Texts.Entry_FormTooOld);
        }

        var (found, fault) = typed.For(view.Page.Tasks.FirstOrDefault(t => t.Id == taskId)?.Kind, view.Visit.Setup.FindSump(view.Tag), view.Visit.Format.Units);
        if (state == TaskState.Done && fault is not null)
        {
            return Fault(view.Visit.Sentences.Field(fault));
        }

        var command = new EndTask(taskId, state, reason, state == TaskState.Done ? found : null);
        var result = await handler.HandleAsync(command, view.Visit.Actor, view.Visit.IsSupervisor, CancellationToken.None);
        return result.Error is { } error
            ? Fault(view.Visit.Sentences.Error(error))
            : SeeOther.At(http, view.Visit.Links.ToDo(view.Tag, id));
    });

    private static RazorComponentResult<SavedDocument> Refused(SavedView view, AdditionForm form, IReadOnlyList<FieldError> errors) => Document(view with
    {
        Addition = form,
        Faults = AdditionForm.FaultsByField(errors, view.Visit.Sentences),
    });

    private static RazorComponentResult<SavedDocument> Document(SavedView view) => new(new { View = view })
    {
        StatusCode = view.Faults.Count > 0 || view.Questions.Count > 0 || view.TaskFault is not null || view.Notice is not null ? StatusCodes.Status422UnprocessableEntity : StatusCodes.Status200OK,
    };

    /// <summary>Looks the page up for each of the three requests.</summary>
    internal sealed class Pages(SavedPageQuery query, RoundPageQuery round, ShopClock clock)
    {
        public async Task<IResult> WithAsync(HttpContext http, string tag, Guid id, Func<SavedView, Task<IResult>> answer)
        {
            var visit = await ShopVisit.OfAsync(http);
            var page = await query.RunAsync(tag, id, http.RequestAborted);
            return page.Value is { } found
                ? await answer(new SavedView(visit, found, id, (await round.RunAsync(http.RequestAborted)).NextAfter(found.Place.SumpId)?.Place.Tag, AdditionForm.Fresh(clock.NewId()), new Dictionary<string, string>(StringComparer.Ordinal)))
                : ShopPages.NotPossible(visit, tag, page.Error ?? new ReadingNotFound(id));
        }
    }
}
