using System.Collections.Concurrent;
using System.Globalization;
using Microsoft.AspNetCore.Antiforgery;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Time;

namespace ShopFluids.Web.Shop.Entry;

/// <summary>
/// Fresh entry pages as they were drawn, for each reader. A tablet asks for those of its whole round every ten minutes, so that the round goes on without
/// Wi-Fi; nearly all of them are what they were. One question to the database tells whether a page is.
/// </summary>
/// <remarks>No memory cache of the framework: one with a limit of size can lose count of what it holds and then keeps nothing any more (dotnet/runtime#129186).</remarks>
internal sealed class KeptEntryPages(EntryPageQuery query, ShopClock clock, IAntiforgery antiforgery)
{
    /// <summary>About 40 MB; those that nobody asked for longest go first.</summary>
    public const int MostPages = 1200;
    private const int LetGoAtOnce = MostPages / 10;
    private const string ContentType = "text/html; charset=utf-8";

    private readonly ConcurrentDictionary<Key, Kept> _kept = new();

    /// <returns>The page as it would be drawn for this reader now; null where that has to be done.</returns>
    public async Task<IResult?> FindAsync(HttpContext http, ShopReader reader, string tag)
    {
        var (now, key) = (clock.UtcNow, Key.Of(reader, tag));
        if (!_kept.TryGetValue(key, out var kept)
            || now < kept.FromUtc || now >= kept.UntilUtc
            || await query.StampAsync(kept.SumpId, http.RequestAborted) != kept.Stamp)
        {
            return null;
        }

        _kept.TryUpdate(key, kept with { AskedForUtc = now }, kept);
        return TypedResults.Bytes(kept.Page.With(PlacesOf(http, clock.NewId(), now)), ContentType);
    }

    /// <returns>Draws the page and keeps it.</returns>
    public IResult Keep(ShopReader reader, string tag, EntryView view, IResult drawing) => new Drawing(drawing, (http, html) =>
    {
        var page = view.Page;
        var drawn = new DrawnPage(html, PlacesOf(http, view.Form.ReadingId, page.NowUtc));
        _kept[Key.Of(reader, tag)] = new(page.Place.SumpId, page.Stamp, page.NowUtc, page.HoldsUntilUtc, drawn, page.NowUtc);
        if (_kept.Count > MostPages)
        {
            // As it stands at one moment: others ask, draw and let go meanwhile.
            foreach (var (key, _) in _kept.ToArray().OrderBy(k => k.Value.AskedForUtc).Take(LetGoAtOnce))
            {
                _kept.TryRemove(key, out _);
            }
        }
    });

    // Of each page its own: the token of its form, the id under which its reading is stored, the moment that it shows.
    private string[] PlacesOf(HttpContext http, Guid readingId, DateTime atUtc) =>
    [
        antiforgery.GetAndStoreTokens(http).RequestToken ?? throw new InvalidOperationException("A form without a token is never accepted."),
        readingId.ToString(),
        new DateTimeOffset(atUtc).ToUnixTimeMilliseconds().ToString(CultureInfo.InvariantCulture),
    ];

    private sealed record Key(ShopReader Reader, string Tag)
    {
        public static Key Of(ShopReader reader, string tag) => new(reader, Tags.Key(tag));
    }

    /// <param name="FromUtc">The clock may be set back.</param>
    private sealed record Kept(Guid SumpId, EntryPageStamp Stamp, DateTime FromUtc, DateTime UntilUtc, DrawnPage Page, DateTime AskedForUtc);

    private sealed class Drawing(IResult page, Action<HttpContext, byte[]> keep) : IResult
    {
        public async Task ExecuteAsync(HttpContext httpContext)
        {
            var response = httpContext.Response;
            var body = response.Body;
            using var drawn = new MemoryStream();
            response.Body = drawn;
            try
            {
                await page.ExecuteAsync(httpContext);
            }
            finally
            {
                response.Body = body;
            }

            var html = drawn.ToArray();
            keep(httpContext, html);
            await TypedResults.Bytes(html, ContentType).ExecuteAsync(httpContext);
        }
    }
}
