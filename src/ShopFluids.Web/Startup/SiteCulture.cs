using System.Globalization;
using ShopFluids.Core.Setup;
using ShopFluids.Web.Api.Access;

namespace ShopFluids.Web.Startup;

/// <summary>
/// Numbers and days follow the site's culture for everybody, whatever the browser asks for: two people at one sump must read
/// the same sign. The language of the texts is English until others are there.
/// </summary>
internal sealed class SiteCulture(SetupCache setups, TimeProvider time)
{
    private const string Language = "en-GB";
    private static readonly TimeSpan RememberedFor = TimeSpan.FromSeconds(10);
    private Entry? _latest;

    /// <summary>For what is written outside of a request. Only of an async method: it holds until that ends.</summary>
    public static void Follow(ShopSetup setup) => Follow(Of(setup));

    public async Task InvokeAsync(HttpContext http, RequestDelegate next)
    {
        // The API writes numbers as JSON does, and must not pay for a look-up.
        if (!ApiRefusals.IsApi(http.Request))
        {
            Follow(await CurrentAsync(http.RequestAborted));
        }

        await next(http);
    }

    private async Task<CultureInfo> CurrentAsync(CancellationToken cancellationToken)
    {
        var latest = Volatile.Read(ref _latest);
        if (latest is null || time.GetElapsedTime(latest.AskedAt) > RememberedFor)
        {
            var setup = await setups.CurrentAsync(cancellationToken);
            latest = new Entry(Of(setup), time.GetTimestamp());
            Volatile.Write(ref _latest, latest);
        }

        return latest.Culture;
    }

    private static void Follow(CultureInfo culture)
    {
        CultureInfo.CurrentCulture = culture;
        CultureInfo.CurrentUICulture = CultureInfo.GetCultureInfo(Language);
    }

    private static CultureInfo Of(ShopSetup setup) => CultureInfo.GetCultureInfo(setup.Site?.Culture ?? Language);

    private sealed record Entry(CultureInfo Culture, long AskedAt);
}
