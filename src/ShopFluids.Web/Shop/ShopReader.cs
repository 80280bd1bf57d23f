using ShopFluids.Core.People;
using ShopFluids.Core.Record;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Account.Stations;
using ShopFluids.Web.Settings;

namespace ShopFluids.Web.Shop;

/// <summary>Everything about a request by which a shop-floor page may differ from that of another: two equal readers are shown the same page at the same moment.</summary>
public sealed record ShopReader(Actor Actor, ShopLook Look)
{
    public static ShopReader Of(HttpContext http)
    {
        ArgumentNullException.ThrowIfNull(http);
        var user = http.User;
        return new(
            user.ToActor(),
            new(
                user.ChosenTheme(),
                user.ChosenUnits(),
                user.IsInRole(Roles.Operator),
                user.IsInRole(Roles.Supervisor),
                StationCookie.SaysItIsAStation(http.Request),
                // Proxies and people may write it in small letters and capitals; pages of one shop have one.
                http.Request.PathBase.HasValue ? http.RequestServices.GetRequiredService<ShopSettings>().BasePath : ""));
    }
}

/// <summary>What many people have in common: their pages differ in who they are for and in nothing else.</summary>
/// <param name="Units">Their own choice; null takes the site's.</param>
/// <param name="IsOnStation">The browser is a shared tablet, whoever has signed in on it and how.</param>
/// <param name="BasePath">What the proxy puts before every address.</param>
public sealed record ShopLook(string Theme, UnitSystem? Units, bool IsOperator, bool IsSupervisor, bool IsOnStation, string BasePath);
