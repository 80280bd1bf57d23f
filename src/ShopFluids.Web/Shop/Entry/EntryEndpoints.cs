using Microsoft.AspNetCore.Http.HttpResults;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;

namespace ShopFluids.Web.Shop.Entry;

/// <summary>One reading at one sump: shown, sent, asked about, stored once.</summary>
internal static class EntryEndpoints
{
    private const string Path = "/enter/{tag}";

    public static void MapEntry(this IEndpointRouteBuilder app)
    {
        app.MapGet(Path, ShowAsync).RequireAuthorization(Policies.CanOperate);
        app.MapPost(Path, SendAsync).RequireAuthorization(Policies.CanOperate).WithMetadata(new KeepsWhatWasTyped(), new TakesAPhoto());
    }

    private static Task<IResult> ShowAsync(HttpContext http, string tag, EntryPageQuery query, Pages pages, ShopClock clock, string? paper) =>
        string.IsNullOrEmpty(paper) ? pages.ShowAsync(http, tag) : ShowFromPaperAsync(http, tag, query, clock, paper);

    private static async Task<IResult> ShowFromPaperAsync(HttpContext http, string tag, EntryPageQuery query, ShopClock clock, string paper)
    {
        var visit = await ShopVisit.OfAsync(http);
        var page = await query.RunAsync(visit.Setup, tag, http.RequestAborted);
        return page.Match<IResult>(
            found => Document(EntryView.Empty(visit, found, FromPaper(EntryForm.Fresh(found, clock.NewId()), paper)) with { IsFresh = true }, StatusCodes.Status200OK),
            error => ShopPages.NotPossible(visit, tag, error));
    }

    // The time of the sump before stands ready: it is corrected more quickly than it is typed.
    private static EntryForm FromPaper(EntryForm form, string paper) => form with { Paper = paper, TakenAt = EntryCommand.IsTime(paper) ? paper : "" };

    private static async Task<IResult> SendAsync(HttpContext http, string tag, EntryPageQuery query, PreviewReadingQuery preview, RecordReadingHandler handler, ShopClock clock)
    {
        var visit = await ShopVisit.OfAsync(http);

        if (TabletAnswer.IsOfAnother(http, visit))
        {
            return Results.StatusCode(StatusCodes.Status401Unauthorized);
        }

        var post = await FormPost.ReadAsync(http);
        var page = await query.RunAsync(visit.Setup, tag, http.RequestAborted);
        if (page.Value is not { } found)
        {
            return page.Match<IResult>(_ => throw new InvalidOperationException("A page was found."), error => ShopPages.NotPossible(visit, tag, error));
        }

        var view = EntryView.Empty(visit, found, EntryForm.Read(post, found, clock.NewId()) with { Photo = await EntryPhoto.ReadAsync(post, http.RequestAborted) });
        if (post.IsTooLarge)
        {
            return Refused(view with { Faults = [EntryPhoto.TooLarge(http.Request.ContentLength ?? 0)] });
        }

        if (!post.IsOurs)
        {
            return Refused(view with { Notice = Texts.Entry_FormTooOld });
        }

        if (view.Form.Again.Length > 0)
        {
            return Document(view with { Form = view.Form.Without(view.Form.Again) }, StatusCodes.Status200OK);
        }

        // Sent before: what was asked then has been answered, and the time must be the one that was stored.
        if (await query.StoredTakenAtAsync(view.Form.ReadingId, http.RequestAborted) is { } storedTakenAt)
        {
            return await StoreAsync(http, handler, clock, view, storedTakenAt);
        }

        // What waited on a tablet was read when it was saved there.
        var now = clock.UtcNow - view.Form.Waited;
        var read = EntryCommand.Of(view.Form, found, visit.Format, now);
        var judged = await preview.RunAsync(read.Command, http.RequestAborted);
        if (judged.Error is not null || read.Faults.Count > 0)
        {
            return judged.Error is null or FieldErrors
                ? Refused(view with { Faults = AllFaults(view, read, judged.Error as FieldErrors) })
                : ShopPages.NotPossible(visit, tag, judged.Error);
        }

        var questions = judged.Value is { } outcome ? EntryView.QuestionsOf(found, view.Form, outcome) : view.Questions;
        return questions.Count > 0
            ? Refused(view with { Preview = judged.Value, Questions = questions })
            : await StoreAsync(http, handler, clock, view, now, query);
    }

    /// <param name="query">Given for the first sending: two that race are told apart by what was stored.</param>
    private static async Task<IResult> StoreAsync(HttpContext http, RecordReadingHandler handler, ShopClock clock, EntryView view, DateTime takenAtUtc, EntryPageQuery? query = null)
    {
        var read = EntryCommand.Of(view.Form, view.Page, view.Visit.Format, takenAtUtc);
        // What was sent is stored, also when the tablet goes out of reach before it hears so.
        var result = await handler.HandleAsync(read.Command, view.Visit.Actor, CancellationToken.None);
        var address = view.Visit.Links.Saved(view.Page.Place.Tag, view.Form.ReadingId) + (view.Form.IsFromPaper ? $"?paper={Uri.EscapeDataString(view.Form.TakenAt.Length > 0 ? view.Form.TakenAt : "1")}" : "");
        switch (result.Error)
        {
            case null:
                return TabletAnswer.Stored(http, address);
            case OtherContentForId when query is not null && await query.StoredTakenAtAsync(view.Form.ReadingId, http.RequestAborted) is { } storedTakenAt:
                return await StoreAsync(http, handler, clock, view, storedTakenAt);
            case OtherContentForId:
                var anew = view.Form with { ReadingId = clock.NewId() };
                return Document(view with { Form = anew, Notice = Texts.Entry_OtherContent, StoredAlready = address }, StatusCodes.Status409Conflict);
            case FieldErrors errors:
                return Refused(view with { Faults = AllFaults(view, read, errors) });
            default:
                return ShopPages.NotPossible(view.Visit, view.Page.Place.Tag, result.Error);
        }
    }

    // A value that is no number was measured all the same.
    internal static List<EntryFault> AllFaults(EntryView view, EntryCommand read, FieldErrors? errors)
    {
        var order = view.Page.Fields.Select((f, i) => (Name: EntryForm.ValueName(f.Key), Place: i)).ToDictionary(f => f.Name, f => f.Place, StringComparer.Ordinal);
        return [.. read.Faults
            .Concat((errors?.Fields ?? [])
                .Where(e => e.Problem != FieldProblem.NothingMeasured || read.Faults.Count == 0)
                .Select(e => EntryFault.Locate(e, view.Page, view.Form)))
            .OrderBy(f => order.GetValueOrDefault(f.Control, int.MaxValue))];
    }

    /// <summary>Fresh entry pages, for whoever asks.</summary>
    internal sealed class Pages(KeptEntryPages kept, EntryPagesAhead ahead, EntryPageDrawer drawer)
    {
        public async Task<IResult> ShowAsync(HttpContext http, string tag)
        {
            var reader = ShopReader.Of(http);
            ahead.Expect(reader.Look);
            return (await kept.PageAsync(reader.Look, tag, http.RequestAborted)).IsRefused(out var refusal, out var page)
                ? ShopPages.NotPossible(await ShopVisit.OfAsync(http), tag, refusal)
                : TypedResults.Bytes(page.With(drawer.Places(http, reader.Actor)), "text/html; charset=utf-8");
        }
    }

    private static RazorComponentResult<EntryDocument> Refused(EntryView view) => Document(view, StatusCodes.Status422UnprocessableEntity);

    private static RazorComponentResult<EntryDocument> Document(EntryView view, int status) => new(new { View = view }) { StatusCode = status };
}
