using Microsoft.AspNetCore.Http.HttpResults;

namespace ShopFluids.Web.Shop;

internal static class SeeOther
{
    /// <summary>Leads from a post to the page that shows what it did, so that a reload posts nothing again.</summary>
    public static StatusCodeHttpResult At(HttpContext http, string address)
    {
        http.Response.Headers.Location = address;
        return TypedResults.StatusCode(StatusCodes.Status303SeeOther);
    }
}
