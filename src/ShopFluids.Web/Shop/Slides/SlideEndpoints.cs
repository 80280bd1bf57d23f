using System.Globalization;
using Microsoft.AspNetCore.Http.HttpResults;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Slides;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Web.Account;
using ShopFluids.Web.Shop.Entry;

namespace ShopFluids.Web.Shop.Slides;

/// <summary>Dip slides of a sump: started now, read when something has grown.</summary>
internal static class SlideEndpoints
{
    private const string Path = "/slides/{tag}";

    public static void MapSlides(this IEndpointRouteBuilder app)
    {
        app.MapGet(Path, (HttpContext http, string tag, Pages pages) => pages.WithAsync(http, tag, view => Task.FromResult<IResult>(Document(view))));
        app.MapPost(Path, StartAsync).RequireAuthorization(Policies.CanOperate).WithMetadata(new KeepsWhatWasTyped());
        app.MapPost(Path + "/{id:guid}/read", ReadAsync).RequireAuthorization(Policies.CanOperate).WithMetadata(new KeepsWhatWasTyped());
        app.MapPost(Path + "/{id:guid}/discard", DiscardAsync).RequireAuthorization(Policies.CanOperate).WithMetadata(new KeepsWhatWasTyped());

        // A refused form stands at the address it was posted to; opened again, that address leads back.
        foreach (var posted in new[] { "/{id:guid}/read", "/{id:guid}/discard" })
        {
            app.MapGet(Path + posted, (HttpContext http, string tag) => Results.Redirect(new ShopLinks(http.Request.PathBase).Slides(tag)));
        }
    }

    private static Task<IResult> StartAsync(HttpContext http, string tag, Pages pages, SlidesQuery slides, StartSlideHandler handler, ShopClock clock) => pages.WithAsync(http, tag, async view =>
    {
        var post = await FormPost.ReadAsync(http);
        view = view with { Typed = Typed(post, null) };
        if (!post.IsOurs)
        {
            return Document(view with { Notice = Texts.Entry_FormTooOld });
        }

        var typed = post.Text(SlideFields.DippedAt);
        var dippedAt = typed.Length == 0 ? clock.UtcNow - TabletWait.Of(post) : EntryCommand.TakenAt(typed, view.Visit.Format);
        if (dippedAt is not { } at)
        {
            return Document(view with { Notice = view.Visit.Sentences.Field(new(SlideFields.DippedAt, FieldProblem.NotATime)) });
        }

        // Sent twice, the second has another moment: what stands there is what the first one said.
        var id = IdOf(post, view);
        if (await IsStartedAsync())
        {
            return Started();
        }

        var incubation = Enum.TryParse<SlideIncubation>(post.Text(SlideFields.Incubation), out var kept) ? kept : default;
        var result = await handler.HandleAsync(new(id, view.Tag, ParameterCodes.Bacteria, incubation, at), view.Visit.Actor, CancellationToken.None);
        return result.Error switch
        {
            null => Started(),
            OtherContentForId when await IsStartedAsync() => Started(),
            var error => Document(view with { Notice = view.Visit.Sentences.Error(error) }),
        };

        Task<bool> IsStartedAsync() => slides.IsStartedAsync(id, view.Page.Place.SumpId, http.RequestAborted);

        IResult Started() => TabletAnswer.Stored(http, view.Visit.Links.Slides(view.Tag));
    });

    private static Task<IResult> ReadAsync(HttpContext http, string tag, Guid id, Pages pages, EndSlideHandler handler, ShopClock clock) => pages.WithAsync(http, tag, async view =>
    {
        var post = await FormPost.ReadAsync(http);
        view = view with { Typed = Typed(post, id) };
        if (!post.IsOurs)
        {
            return Document(view with { Notice = Texts.Entry_FormTooOld });
        }

        if (!decimal.TryParse(post.Text(SlideFields.Value), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value))
        {
            return Document(view with { Notice = view.Visit.Sentences.Field(new(SlideFields.Value, FieldProblem.Missing)) });
        }

        var readingId = IdOf(post, view);
        var result = await handler.HandleAsync(new(id, new(readingId, clock.UtcNow - TabletWait.Of(post), value)), view.Visit.Actor, CancellationToken.None);
        return result.Error is { } error ? Document(view with { Notice = view.Visit.Sentences.Error(error) }) : TabletAnswer.Stored(http, view.Visit.Links.Saved(view.Tag, readingId));
    });

    private static Task<IResult> DiscardAsync(HttpContext http, string tag, Guid id, Pages pages, EndSlideHandler handler) => pages.WithAsync(http, tag, async view =>
    {
        var post = await FormPost.ReadAsync(http);
        view = view with { Typed = Typed(post, id) };
        if (!post.IsOurs)
        {
            return Document(view with { Notice = Texts.Entry_FormTooOld });
        }

        var result = await handler.HandleAsync(new(id, null, post.Text(SlideFields.Reason)), view.Visit.Actor, CancellationToken.None);
        return result.Error is { } error ? Document(view with { Notice = view.Visit.Sentences.Error(error) }) : TabletAnswer.Stored(http, view.Visit.Links.Slides(view.Tag));
    });

    private static TypedSlide Typed(FormPost post, Guid? slideId) =>
        new(slideId, post.Text(SlideFields.Incubation), post.Text(SlideFields.DippedAt), post.Text(SlideFields.Value), post.Text(SlideFields.Reason), post.Text(TabletWait.SavedAtName), post.Text(TabletWait.SentAtName));

    private static Guid IdOf(FormPost post, SlideView view) => Guid.TryParse(post.Text(SlideView.IdName), out var id) && id != Guid.Empty ? id : view.NewId;

    private static RazorComponentResult<SlidesDocument> Document(SlideView view) => new(new { View = view })
    {
        StatusCode = view.Notice is null ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity,
    };

    /// <summary>Looks the page up for each of the requests.</summary>
    internal sealed class Pages(SlidesQuery query, ShopClock clock)
    {
        public async Task<IResult> WithAsync(HttpContext http, string tag, Func<SlideView, Task<IResult>> answer)
        {
            var visit = await ShopVisit.OfAsync(http);
            if (TabletAnswer.IsOfAnother(http, visit))
            {
                return Results.StatusCode(StatusCodes.Status401Unauthorized);
            }

            var page = await query.OfSumpAsync(tag, http.RequestAborted);
            return page.Value is { } found
                ? await answer(new(visit, found, clock.NewId()))
                : ShopPages.NotPossible(visit, tag, page.Error ?? new SumpNotFound(tag));
        }
    }
}
