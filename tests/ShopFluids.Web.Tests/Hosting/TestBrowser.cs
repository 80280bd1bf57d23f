using System.Net;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.TestHost;

namespace ShopFluids.Web.Tests.Hosting;

/// <summary>A browser without script.</summary>
internal sealed partial class TestBrowser(TestServer server)
{
    private readonly CookieContainer _cookies = new();

    public Uri Address { get; private set; } = new("http://localhost/");

    /// <summary>As they would be sent along with the next request.</summary>
    public string Cookies => _cookies.GetCookieHeader(Address);

    public async Task<TestPage> OpenAsync(string path) => await FollowAsync(new HttpRequestMessage(HttpMethod.Get, path));

    /// <summary>Posts the form of a page to an address, with its hidden token.</summary>
    public async Task<TestPage> PostAsync(string path, TestPage page, params (string Name, string Value)[] fields) =>
        await PostAsync(path, [("__RequestVerificationToken", TokenOf(page.Text)), .. fields]);

    public async Task<TestPage> PostAsync(string path, params (string Name, string Value)[] fields) =>
        await FollowAsync(new HttpRequestMessage(HttpMethod.Post, path)
        {
            Content = new FormUrlEncodedContent(fields.Select(f => KeyValuePair.Create(f.Name, f.Value))),
        });

    public async Task<TestPage> SignInAsync(string name, string password = TestHost.Password)
    {
        var page = await OpenAsync("/account/sign-in");
        return await PostAsync("/account/sign-in", page, ("name", name), ("password", password));
    }

    /// <summary>Sends without following, with the cookies.</summary>
    public async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request)
    {
        var client = server.CreateClient();
        request.RequestUri = new Uri(Address, request.RequestUri ?? Address);
        if (_cookies.GetCookieHeader(request.RequestUri) is { Length: > 0 } cookies)
        {
            request.Headers.Add("Cookie", cookies);
        }

        var response = await client.SendAsync(request);
        if (response.Headers.TryGetValues("Set-Cookie", out var set))
        {
            foreach (var cookie in set)
            {
                _cookies.SetCookies(request.RequestUri, cookie);
            }
        }

        return response;
    }

    private async Task<TestPage> FollowAsync(HttpRequestMessage request)
    {
        var response = await SendAsync(request);
        for (var i = 0; i < 5 && (int)response.StatusCode is >= 300 and < 400; i++)
        {
            var next = new Uri(request.RequestUri!, response.Headers.Location!);
            request = new HttpRequestMessage(HttpMethod.Get, next);
            response = await SendAsync(request);
        }

        return new TestPage(request.RequestUri!.PathAndQuery, response.StatusCode, response, await response.Content.ReadAsStringAsync());
    }

    private static string TokenOf(string html) => WebUtility.HtmlDecode(TokenPattern().Match(html).Groups["token"].Value);

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"(?<token>[^\"]+)\"", RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex TokenPattern();
}

/// <param name="Path">Where the redirects ended.</param>
internal sealed record TestPage(string Path, HttpStatusCode Status, HttpResponseMessage Response, string Text);
