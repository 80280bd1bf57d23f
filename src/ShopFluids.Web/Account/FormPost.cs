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
    private const string LeftBehind = "-left";

    /// <summary>It was not read at all.</summary>
    public bool IsTooLarge { get; private init; }

    public static async Task<FormPost> ReadAsync(HttpContext http)
    {
        var most = http.GetEndpoint()?.Metadata.GetMetadata<TakesAPhoto>() is null ? MaximumBytes : TakesAPhoto.MaximumFormBytes;
        var isTooLarge = http.Request.ContentLength > most;
        if (!http.Request.HasFormContentType || isTooLarge)
        {
            return new FormPost(FormCollection.Empty, IsOurs: false) { IsTooLarge = isTooLarge };
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

    /// <summary>The file of a field; null where none was chosen.</summary>
    public IFormFile? File(string field) => Form.Files.GetFile(field) is { Length: > 0 } file ? file : null;

    /// <summary>A file was chosen, but a page on the way could not carry it.</summary>
    public bool LeftBehindFile(string field) => Form.ContainsKey(field + LeftBehind);

    /// <summary>What another page carries along to bring it back: all fields but these, and a word for each file, which no page can carry.</summary>
    public IReadOnlyList<KeyValuePair<string, string>> Carried(params IReadOnlyList<string> without) =>
    [
        .. Form.Where(f => !without.Contains(f.Key, StringComparer.Ordinal)).SelectMany(f => f.Value.OfType<string>().Select(v => KeyValuePair.Create(f.Key, v))),
        .. Form.Files.Where(f => f.Length > 0).Select(f => KeyValuePair.Create(f.Name + LeftBehind, "1")),
    ];

    /// <summary>A password is taken as it was typed.</summary>
    public string Secret(string field) => Form[field].FirstOrDefault() ?? "";
}

/// <summary>On addresses whose form may bring a photo. Its size is checked where it is read, so that all else in the form comes back with the refusal.</summary>
internal sealed class TakesAPhoto
{
    /// <summary>Just below what the server reads of any request; no photo of a form comes near.</summary>
    public const long MaximumFormBytes = 28_000_000;
}
