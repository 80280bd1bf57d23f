using System.Globalization;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.Extensions.Caching.Memory;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Time;

namespace ShopFluids.Web.Shop.Entry;

/// <summary>
/// Fresh entry pages as they were drawn, for each reader. A tablet asks for those of its whole round every ten minutes, so that the round goes on without
/// Wi-Fi; nearly all of them are what they were. One question to the database tells whether a page is.
/// </summary>
internal sealed class KeptEntryPages(EntryPageQuery query, ShopClock clock, IAntiforgery antiforgery) : IDisposable
{
    // About a thousand pages; those that nobody asked for longest go first.
    private const long MostBytes = 32 * 1024 * 1024;
    private const string ContentType = "text/html; charset=utf-8";
    private static readonly TimeSpan UnaskedFor = TimeSpan.FromHours(1);

    private readonly MemoryCache _kept = new(new MemoryCacheOptions { SizeLimit = MostBytes });

    /// <returns>The page as it would be drawn for this reader now; null where that has to be done.</returns>
    public async Task<IResult?> FindAsync(HttpContext http, ShopReader reader, string tag)
    {
        var now = clock.UtcNow;
        return _kept.TryGetValue(new Key(reader, tag), out Kept? kept)
            && kept is not null
            && kept.FromUtc <= now && now < kept.UntilUtc
            && await query.StampAsync(kept.SumpId, http.RequestAborted) == kept.Stamp
                ? TypedResults.Bytes(kept.Page.With(PlacesOf(http, clock.NewId(), now)), ContentType)
                : null;
    }

    /// <returns>Draws the page and keeps it; not where the set-up was changed while the page was put together.</returns>
    public IResult Keep(ShopReader reader, string tag, EntryView view, IResult drawing) =>
        view.Page.Stamp.Setup == view.Visit.Setup.Version ? new Drawing(drawing, (http, html) => Keep(new Key(reader, tag), view, PlacesOf(http, view.Form.ReadingId, view.Page.NowUtc), html)) : drawing;

    public void Dispose() => _kept.Dispose();

    private void Keep(Key key, EntryView view, string[] places, byte[] html)
    {
        var kept = new Kept(view.Page.Place.SumpId, view.Page.Stamp, view.Page.NowUtc, view.Page.HoldsUntilUtc, new DrawnPage(html, places));
        _kept.Set(key, kept, new MemoryCacheEntryOptions { Size = html.Length, SlidingExpiration = UnaskedFor });
    }

    // Of each page its own: the token of its form, the id under which its reading is stored, the moment that it shows.
    private string[] PlacesOf(HttpContext http, Guid readingId, DateTime atUtc) =>
    [
        antiforgery.GetAndStoreTokens(http).RequestToken ?? throw new InvalidOperationException("A form without a token is never accepted."),
        readingId.ToString(),
        new DateTimeOffset(atUtc).ToUnixTimeMilliseconds().ToString(CultureInfo.InvariantCulture),
    ];

    private sealed record Key(ShopReader Reader, string Tag);

    /// <param name="FromUtc">The clock may be set back.</param>
    private sealed record Kept(Guid SumpId, EntryPageStamp Stamp, DateTime FromUtc, DateTime UntilUtc, DrawnPage Page);

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
