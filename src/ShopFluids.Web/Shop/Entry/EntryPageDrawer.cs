using System.Globalization;
using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Http.HttpResults;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Time;
using ShopFluids.Web.Startup;

namespace ShopFluids.Web.Shop.Entry;

/// <summary>Draws fresh entry pages that are of nobody yet: outside of any request, with stand-ins for what is another in each page that is sent.</summary>
internal sealed class EntryPageDrawer(EntryPageQuery query, SetupCache setups, ShopAssets assets, ShopClock clock, IAntiforgery antiforgery, IServiceScopeFactory scopes)
{
    /// <returns>The page as it is now; why there is none: the sump is not known, retired, empty.</returns>
    public async Task<Result<DrawnEntryPage>> DrawAsync(ShopLook look, string tag, CancellationToken cancellationToken)
    {
        var setup = await setups.CurrentAsync(cancellationToken);
        if ((await query.RunAsync(setup, tag, cancellationToken)).IsRefused(out var refusal, out var page))
        {
            return refusal;
        }

        SiteCulture.Follow(setup);
        var somebody = new Actor(clock.NewId(), clock.NewId().ToString());
        var form = EntryForm.Fresh(page, clock.NewId());
        var view = EntryView.Empty(ShopVisit.Of(somebody, look, setup, assets), page, form) with { IsFresh = true };
        await using var scope = scopes.CreateAsyncScope();
        using var html = new MemoryStream();
        var http = new DefaultHttpContext { RequestServices = scope.ServiceProvider, Request = { Scheme = "http", Host = new("localhost") }, Response = { Body = html } };
        await new RazorComponentResult<EntryDocument>(new { View = view }).ExecuteAsync(http);
        return new DrawnEntryPage(page, new DrawnPage(html.ToArray(), Places(http, somebody, form.ReadingId, page.NowUtc)));
    }

    /// <summary>What stands in a page that is sent now: the token of its form, the id under which its reading will be stored, the moment that it shows, who it is for.</summary>
    public string[] Places(HttpContext http, Actor actor) => Places(http, actor, clock.NewId(), clock.UtcNow);

    private string[] Places(HttpContext http, Actor actor, Guid readingId, DateTime atUtc) =>
    [
        antiforgery.GetAndStoreTokens(http).RequestToken ?? throw new InvalidOperationException("A form without a token is never accepted."),
        readingId.ToString(),
        new DateTimeOffset(atUtc).ToUnixTimeMilliseconds().ToString(CultureInfo.InvariantCulture),
        actor.PersonId.ToString() ?? "",
        HtmlEncoder.Default.Encode(actor.Name),
    ];
}

/// <param name="Page">What it tells.</param>
/// <param name="Html">The same as it is sent, but for whom it is sent to.</param>
internal sealed record DrawnEntryPage(EntryPage Page, DrawnPage Html);
