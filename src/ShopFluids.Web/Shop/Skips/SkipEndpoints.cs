using System.Globalization;
using Microsoft.AspNetCore.Http.HttpResults;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Rounds;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;

namespace ShopFluids.Web.Shop.Skips;

/// <summary>Passing a sump by, and finishing a round with what is left.</summary>
internal static class SkipEndpoints
{
    public const string Path = "/round/skip";
    public const string FinishPath = "/round/finish";

    public static void MapSkips(this IEndpointRouteBuilder app)
    {
        app.MapGet(Path, (HttpContext http, RoundPageQuery round, ShopClock clock, string? sump) => ShowAsync(http, round, clock.NewId(), s => string.Equals(s.Place.Tag, sump, StringComparison.OrdinalIgnoreCase), isFinish: false)).RequireAuthorization(Policies.CanOperate);
        app.MapGet(FinishPath, (HttpContext http, RoundPageQuery round, ShopClock clock) => ShowAsync(http, round, clock.NewId(), s => s.Skip is null, isFinish: true)).RequireAuthorization(Policies.CanOperate);
        app.MapPost(Path, SkipAsync).RequireAuthorization(Policies.CanOperate).WithMetadata(new KeepsWhatWasTyped());
    }

    private static async Task<IResult> ShowAsync(HttpContext http, RoundPageQuery round, Guid id, Func<RoundStop, bool> isMeant, bool isFinish)
    {
        var visit = await ShopVisit.OfAsync(http);
        var page = await round.RunAsync(http.RequestAborted);
        var stops = page.Due.Concat(page.Skipped).Where(isMeant).ToList();
        return stops.Count == 0 ? TypedResults.LocalRedirect(visit.Links.Round) : Document(new(visit, id, stops, page.NowUtc, isFinish, null, "", new Dictionary<string, string>(StringComparer.Ordinal)));
    }

    private static async Task<IResult> SkipAsync(HttpContext http, RoundPageQuery round, SkipStopsHandler handler, ShopClock clock)
    {
        var visit = await ShopVisit.OfAsync(http);
        if (TabletAnswer.IsOfAnother(http, visit))
        {
            return Results.StatusCode(StatusCodes.Status401Unauthorized);
        }

        var post = await FormPost.ReadAsync(http);
        var id = Guid.TryParse(post.Text(SkipView.IdName), out var sent) && sent != Guid.Empty ? sent : clock.NewId();
        var tags = post.Form[SkipView.SumpName].OfType<string>().ToList();
        SkipReason? reason = short.TryParse(post.Text(SkipStopsHandler.ReasonField), NumberStyles.None, CultureInfo.InvariantCulture, out var chosen) ? (SkipReason)chosen : null;
        var words = post.Text(SkipStopsHandler.WordsField).ReplaceLineEndings(" ");

        // What was said is kept, also when the tablet goes out of reach before it hears so.
        var command = new SkipStops(id, tags, reason, words, clock.UtcNow - TabletWait.Of(post));
        var error = post.IsOurs ? (await handler.HandleAsync(command, visit.Actor, CancellationToken.None)).Error : null;
        if (post.IsOurs && error is null or NothingToSkip)
        {
            return TabletAnswer.Stored(http, visit.Links.Round);
        }

        if (error is not null and not FieldErrors and not OtherContentForId)
        {
            return ShopPages.NotPossible(visit, Texts.Round_Title, error);
        }

        var page = await round.RunAsync(http.RequestAborted);
        var faults = (error as FieldErrors)?.Fields.ToDictionary(f => f.Field, visit.Sentences.Field, StringComparer.Ordinal) ?? [];
        return Document(new(
            visit,
            error is OtherContentForId ? clock.NewId() : id,
            [.. page.All.Where(s => tags.Contains(s.Place.Tag, StringComparer.OrdinalIgnoreCase))],
            page.NowUtc,
            post.Text(SkipView.FinishName) == "1",
            reason,
            words,
            faults,
            error is OtherContentForId ? Texts.Entry_OtherContent : post.IsOurs ? null : Texts.Entry_FormTooOld)
        {
            SavedAt = post.Text(TabletWait.SavedAtName),
            SentAt = post.Text(TabletWait.SentAtName),
        });
    }

    private static RazorComponentResult<SkipDocument> Document(SkipView view) => new(new { View = view })
    {
        StatusCode = view.Faults.Count > 0 || view.Notice is not null ? StatusCodes.Status422UnprocessableEntity : StatusCodes.Status200OK,
    };
}
