using ShopFluids.Web.Account;

namespace ShopFluids.Web.Shop;

/// <summary>What a form of the shop floor is answered, sent by a browser or by the tablet's script.</summary>
internal static class TabletAnswer
{
    private const string PersonHeader = "X-ShopFluids-Person";

    /// <summary>What waited on the tablet is of the person who saved it, whoever is signed in by now.</summary>
    public static bool IsOfAnother(HttpContext http, ShopVisit visit) => Guid.TryParse(http.Request.Headers[PersonHeader], out var savedBy) && savedBy != visit.Actor.PersonId;

    /// <summary>It is stored: a browser is led on, a script is told where to go.</summary>
    public static IResult Stored(HttpContext http, string address) => FormPost.IsOfScript(http.Request)
        ? TypedResults.Json(new StoredPlace(address), statusCode: StatusCodes.Status201Created)
        : SeeOther.At(http, address);

    private sealed record StoredPlace(string Location);
}
