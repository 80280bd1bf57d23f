using Microsoft.AspNetCore.Antiforgery;
using ShopFluids.Web.Api.Access;

namespace ShopFluids.Web.Account;

/// <summary>
/// A posted form and whether it came from our own page. Checked here and not by the framework's filter, which answers an old
/// page with an empty error: the caller shows the form again with what was typed.
/// </summary>
/// <param name="IsOurs">False when the page was open too long, its sign-in ended, or another site sent it: nothing may be done.</param>
public sealed record FormPost(IFormCollection Form, bool IsOurs)
{
    /// <summary>The hidden field that the AntiforgeryToken component writes.</summary>
    public const string TokenField = "__RequestVerificationToken";

    private const long MaximumBytes = 64 * 1024;

    public static async Task<FormPost> ReadAsync(HttpContext http)
    {
        if (!http.Request.HasFormContentType || http.Request.ContentLength > MaximumBytes)
        {
            return new FormPost(FormCollection.Empty, IsOurs: false);
        }

        var form = await ReadFormAsync(http);
        var isOurs = IsOfScript(http.Request) || await http.RequestServices.GetRequiredService<IAntiforgery>().IsRequestValidAsync(http);
        return new FormPost(form, isOurs && http.Features.Get<SignedInWithThisForm>() is null);
    }

    /// <summary>Sent by our own script: a page of another site cannot add this header, and a page kept on a tablet has no token that still holds.</summary>
    public static bool IsOfScript(HttpRequest request) => request.Headers.ContainsKey(ApiRefusals.OwnHeader);

    // A browser sends no such form: a zero in a text, or more fields than there are.
    private static async Task<IFormCollection> ReadFormAsync(HttpContext http)
    {
        try
        {
            return await http.Request.ReadFormAsync(http.RequestAborted);
        }
        catch (InvalidDataException broken)
        {
            throw new BadHttpRequestException(broken.Message, broken);
        }
    }

    /// <summary>The first value of a field, trimmed; empty when it is missing.</summary>
    public string Text(string field) => Form[field].FirstOrDefault()?.Trim() ?? "";

    /// <summary>A password is taken as it was typed.</summary>
    public string Secret(string field) => Form[field].FirstOrDefault() ?? "";
}
