using System.Net;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Routing;
using Microsoft.AspNetCore.StaticAssets;
using ShopFluids.Core.People;
using ShopFluids.Testing.Databases;
using Xunit;

namespace ShopFluids.Web.Tests.Account;

/// <summary>What a PIN opens, of everything that the program serves. The person is a supervisor, so that no role of theirs shuts a door.</summary>
public sealed partial class StationLimitsTests
{
    private static readonly string[] Opened =
    [
        "GET /",
        "GET /enter/{tag}",
        "GET /enter/{tag}/saved/{id:guid}",
        "GET /enter/{tag}/saved/{id:guid}/added",
        "GET /enter/{tag}/saved/{id:guid}/tasks/{taskId:guid}",
        "GET /photos/{id:guid}",
        "GET /photos/{id:guid}/file",
        "GET /round",
        "GET /round/finish",
        "GET /round/skip",
        "GET /slides/{tag}",
        "GET /slides/{tag}/{id:guid}/discard",
        "GET /slides/{tag}/{id:guid}/read",
        "POST /api/v1/readings/preview",
        "POST /enter/{tag}",
        "POST /enter/{tag}/saved/{id:guid}/added",
        "POST /enter/{tag}/saved/{id:guid}/tasks/{taskId:guid}",
        "POST /round/skip",
        "POST /slides/{tag}",
        "POST /slides/{tag}/{id:guid}/discard",
        "POST /slides/{tag}/{id:guid}/read",
    ];

    [Theory, EachDatabase]
    public async Task PinSession_EveryRouteBesides_IsRefused(TestDatabase database)
    {
        await using var desk = await StationDesk.OpenAsync(database);
        var person = await desk.PersonAsync("sam", Roles.Supervisor);
        var tablet = await desk.TabletAsync(await desk.OfferAsync());
        await StationDesk.LetInAsync(tablet, person);

        // What asks for a file that is not there is answered "not found" to everybody.
        var routes = desk.Host.Get<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>()
            .Where(e => e.Metadata.GetMetadata<IAllowAnonymous>() is null && e.Metadata.GetMetadata<StaticAssetDescriptor>() is null)
            .SelectMany(e => (e.Metadata.GetMetadata<IHttpMethodMetadata>()?.HttpMethods ?? ["GET", "POST"]).Select(m => (Method: m, Path: "/" + e.RoutePattern.RawText?.TrimStart('/'))))
            .Where(r => !r.Path.Contains(":file", StringComparison.Ordinal))
            .Distinct()
            .ToList();
        Assert.True(routes.Count > 60, $"{routes.Count} routes");

        var opened = new List<string>();
        foreach (var (method, path) in routes)
        {
            using var request = new HttpRequestMessage(new HttpMethod(method), Filled(path));
            request.Headers.Add("X-ShopFluids", "1");
            using var answer = await tablet.SendAsync(request);
            var isRefused = path.StartsWith("/api/", StringComparison.Ordinal)
                ? answer.StatusCode == HttpStatusCode.Forbidden
                : answer.StatusCode == HttpStatusCode.Redirect && answer.Headers.Location?.OriginalString.Contains("/account/not-allowed", StringComparison.Ordinal) == true;
            if (!isRefused)
            {
                opened.Add($"{method} {path}");
            }
        }

        Assert.Equal(Opened, opened.Order(StringComparer.Ordinal));
    }

    // A wish for a supervisor's right, sent along with what a PIN may do, is not granted.
    [Theory, EachDatabase]
    public async Task PinSession_OfASupervisor_HasTheOperatorsRights(TestDatabase database)
    {
        await using var desk = await StationDesk.OpenAsync(database);
        var person = await desk.PersonAsync("sam", Roles.Supervisor);
        var tablet = await desk.TabletAsync(await desk.OfferAsync());

        Assert.Equal("/round", (await StationDesk.LetInAsync(tablet, person)).Path);
        Assert.StartsWith("/account/not-allowed", (await StationDesk.LetInAsync(tablet, person, returnUrl: "/board")).Path, StringComparison.Ordinal);
        Assert.StartsWith("/account/not-allowed", (await tablet.OpenAsync("/setup/stations")).Path, StringComparison.Ordinal);
        var page = await tablet.SignInAsync("sam");
        Assert.Equal("/board", page.Path);
        Assert.Equal("/setup/stations", (await tablet.OpenAsync("/setup/stations")).Path);
    }

    private static string Filled(string pattern) => Parameter().Replace(pattern, m => m.Value.Contains("guid", StringComparison.Ordinal) ? Guid.Empty.ToString("D")
        : m.Value.Contains("int", StringComparison.Ordinal) ? "1"
        : m.Value.Contains("documentName", StringComparison.Ordinal) ? "v1"
        : "S-07");

    [GeneratedRegex(@"\{[^}]*\}", RegexOptions.None, 1000)]
    private static partial Regex Parameter();
}
