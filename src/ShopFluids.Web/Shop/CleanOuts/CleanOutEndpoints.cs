using Microsoft.AspNetCore.Http.HttpResults;
using ShopFluids.Core.CleanOuts;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Shop.Entry;

namespace ShopFluids.Web.Shop.CleanOuts;

/// <summary>A clean-out, step by step, up to the first reading of the new charge.</summary>
internal static class CleanOutEndpoints
{
    public const string CleanOutName = "cleanOut";
    private const string Path = "/drain/{tag}";

    public static void MapCleanOuts(this IEndpointRouteBuilder app)
    {
        app.MapGet(Path, (HttpContext http, string tag, Pages pages) => pages.WithAsync(http, tag, view => Task.FromResult<IResult>(Document(view))));
        app.MapPost(Path + "/steps/{step}", NoteAsync).RequireAuthorization(Policies.CanOperate).WithMetadata(new KeepsWhatWasTyped());
        app.MapPost(Path + "/finish", FinishAsync).RequireAuthorization(Policies.CanOperate).WithMetadata(new KeepsWhatWasTyped());
        app.MapPost(Path + "/break-off", BreakOffAsync).RequireAuthorization(Policies.CanOperate).WithMetadata(new KeepsWhatWasTyped());

        // A refused form stands at the address it was posted to; opened again, that address leads back.
        foreach (var posted in new[] { "/steps/{step}", "/finish", "/break-off" })
        {
            app.MapGet(Path + posted, (HttpContext http, string tag) => Results.Redirect(new ShopLinks(http.Request.PathBase).CleanOut(tag)));
        }
    }

    private static Task<IResult> NoteAsync(HttpContext http, string tag, string step, Pages pages, NoteCleanOutStepHandler handler) => pages.WithAsync(http, tag, async view =>
    {
        if (!Enum.TryParse<CleanOutStepKind>(step, ignoreCase: true, out var kind) || !Enum.IsDefined(kind))
        {
            return TypedResults.NotFound();
        }

        var post = await FormPost.ReadAsync(http);
        var (form, isLeftOut) = (CleanOutForm.Read(post, kind), post.Text(CleanOutForm.LeaveOutName) == "1");
        view = view with { At = kind, Typed = form, IsLeavingOut = isLeftOut };
        if (!post.IsOurs)
        {
            return Document(view with { Notice = Texts.Entry_FormTooOld });
        }

        var (note, faults) = form.ToNote(kind, isLeftOut, view.Visit.Format.Units);
        if (faults.Count > 0)
        {
            return Document(view with { Faults = FaultsOf(view, faults) });
        }

        var id = Guid.TryParse(post.Text(CleanOutForm.IdName), out var sent) && sent != Guid.Empty ? sent : view.CleanOutId;
        var seen = int.TryParse(post.Text(CleanOutForm.SeenName), System.Globalization.CultureInfo.InvariantCulture, out var round) ? round : 0;
        // Stored also when the tablet goes out of reach before it hears so; the same holds below.
        var result = await handler.HandleAsync(new(id, view.Tag, kind, seen, note), view.Visit.Actor, view.Visit.IsSupervisor, CancellationToken.None);
        return result.Error switch
        {
            null => SeeOther.At(http, $"{view.Visit.Links.CleanOut(view.Tag)}#{CleanOutView.Now}"),
            CleanOutIsOver { ReadingId: { } reading } => SeeOther.At(http, view.Visit.Links.Saved(view.Tag, reading)),
            FieldErrors errors => Document(view with { Faults = FaultsOf(view, errors.Fields) }),
            // What stands there now was noted after this page was looked up.
            CleanOutStepChanged changed => await pages.WithAsync(http, tag, anew => Task.FromResult<IResult>(Document(anew with { At = kind, Typed = form, IsLeavingOut = isLeftOut, Notice = anew.Visit.Sentences.Error(changed) }))),
            CleanOutNotFound or CleanOutIsOver or CleanOutStepMissing or CleanOutStepNeeded => Document(view with { Notice = view.Visit.Sentences.Error(result.Error) }),
            var error => ShopPages.NotPossible(view.Visit, view.Tag, error),
        };
    });

    private static Task<IResult> FinishAsync(HttpContext http, string tag, Pages pages, FinishCleanOutHandler handler, ShopClock clock) => pages.WithAsync(http, tag, async view =>
    {
        var post = await FormPost.ReadAsync(http);
        var id = Guid.TryParse(post.Text(CleanOutName), out var sent) ? sent : Guid.Empty;
        if (view.First is not { } first || view.Page.CleanOutId != id)
        {
            // Pressed twice, or on two tablets: it is finished once.
            return await pages.ReadingOfAsync(id, http.RequestAborted) is { } reading
                ? SeeOther.At(http, view.Visit.Links.Saved(view.Tag, reading))
                : Document(view with { Notice = Texts.CleanOut_Over });
        }

        first = first with { Form = EntryForm.Read(post, first.Page, clock.NewId()) };
        if (!post.IsOurs)
        {
            return Document(view with { First = first with { Notice = Texts.Entry_FormTooOld } });
        }

        if (first.Form.Again.Length > 0)
        {
            return Document(view with { First = first with { Form = first.Form.Without(first.Form.Again) } });
        }

        var read = EntryCommand.Of(first.Form, first.Page, view.Visit.Format, clock.UtcNow);
        var command = new FinishCleanOut(id, read.Command);
        var judged = await handler.PreviewAsync(command, view.Visit.Actor, http.RequestAborted);
        if (judged.Error is not null || read.Faults.Count > 0)
        {
            return Refused(http, view, first, read, judged.Error);
        }

        var questions = judged.Value is { } preview ? EntryView.QuestionsOf(first.Page, first.Form, preview.Outcome) : first.Questions;
        if (questions.Count > 0)
        {
            return Document(view with { First = first with { Preview = judged.Value?.Outcome, Questions = questions } });
        }

        var result = await handler.HandleAsync(command, view.Visit.Actor, CancellationToken.None);
        return result.Error is { } error
            ? Refused(http, view, first, read, error)
            : SeeOther.At(http, view.Visit.Links.Saved(view.Tag, read.Command.Id));
    });

    private static Task<IResult> BreakOffAsync(HttpContext http, string tag, Pages pages, BreakOffCleanOutHandler handler) => pages.WithAsync(http, tag, async view =>
    {
        var post = await FormPost.ReadAsync(http);
        view = view with { BreakOffReason = post.Text(CleanOutFields.Reason) };
        if (!post.IsOurs)
        {
            return Document(view with { BreakOffFault = Texts.Entry_FormTooOld });
        }

        var result = await handler.HandleAsync(new(Guid.TryParse(post.Text(CleanOutForm.IdName), out var id) ? id : Guid.Empty, view.BreakOffReason), view.Visit.Actor, CancellationToken.None);
        return result.Error switch
        {
            null => SeeOther.At(http, view.Visit.Links.CleanOut(view.Tag)),
            CleanOutIsOver { ReadingId: { } reading } => SeeOther.At(http, view.Visit.Links.Saved(view.Tag, reading)),
            var error => Document(view with { BreakOffFault = view.Visit.Sentences.Error(error) }),
        };
    });

    private static IResult Refused(HttpContext http, CleanOutView view, EntryView first, EntryCommand read, Error? error) => error switch
    {
        null or FieldErrors => Document(view with { First = first with { Faults = EntryEndpoints.AllFaults(first, read, error as FieldErrors) } }),
        CleanOutIsOver { ReadingId: { } reading } => SeeOther.At(http, view.Visit.Links.Saved(view.Tag, reading)),
        RefillNotPossible refill => Document(view with { First = first, At = CleanOutStepKind.Refill, Faults = FaultsOf(view, refill.Fields), Notice = view.Visit.Sentences.Error(refill) }),
        OtherContentForId => Document(view with { First = first with { Notice = Texts.Entry_OtherContent } }),
        _ => Document(view with { First = first, Notice = view.Visit.Sentences.Error(error) }),
    };

    private static Dictionary<string, string> FaultsOf(CleanOutView view, IEnumerable<FieldError> errors) => errors.GroupBy(e => e.Field).ToDictionary(
        g => g.Key,
        g => string.Join(' ', g.Select(e => e.Problem == FieldProblem.Missing && CleanOutInput.Of(view.At ?? CleanOutStepKind.Plan, isSupervisor: true).Any(i => i.Name == e.Field && i.Kind == CleanOutInputKind.Tick) ? Texts.CleanOut_TickThis : view.Visit.Sentences.Field(e))),
        StringComparer.Ordinal);

    private static RazorComponentResult<CleanOutDocument> Document(CleanOutView view) => new(new { View = view })
    {
        StatusCode = view.IsRefused ? StatusCodes.Status422UnprocessableEntity : StatusCodes.Status200OK,
    };

    /// <summary>Looks the page up for each of the requests.</summary>
    internal sealed class Pages(CleanOutPageQuery query, EntryPageQuery entry, ShopClock clock)
    {
        public Task<Guid?> ReadingOfAsync(Guid cleanOutId, CancellationToken cancellationToken) => query.ReadingOfAsync(cleanOutId, cancellationToken);

        public async Task<IResult> WithAsync(HttpContext http, string tag, Func<CleanOutView, Task<IResult>> answer)
        {
            var visit = await ShopVisit.OfAsync(http);
            var page = await query.RunAsync(tag, http.RequestAborted);
            if (page.Value is not { } found)
            {
                return ShopPages.NotPossible(visit, tag, page.Error ?? new SumpNotFound(tag));
            }

            var view = new CleanOutView(visit, found, found.CleanOutId ?? clock.NewId());
            if (found.Current is null && (await entry.RunAsync(tag, http.RequestAborted, isFirst: true)).Value is { } first)
            {
                view = view with { First = EntryView.Empty(visit, first, EntryForm.Fresh(first, clock.NewId())) };
            }

            return await answer(view);
        }
    }
}
