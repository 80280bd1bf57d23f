using System.Security.Cryptography;
using Microsoft.Playwright;
using ShopFluids.Core.Wording;
using ShopFluids.EndToEnd.Tests.Server;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.Browser;

/// <summary>A shared tablet: enrolled as a supervisor does it, opened by tile and PIN as people do.</summary>
internal sealed class Tablet(Visit visit, string name) : IAsyncDisposable
{
    public const string Karrow = "J. Karrow";
    public const string KarrowPin = "204816";
    public const string Vell = "T. Vell";
    public const string VellPin = "518273";
    public const string Supervisor = "M. Ostrey";
    public const string SupervisorPin = "730415";

    public Visit Visit => visit;

    public IPage Page => visit.Page;

    public string Name => name;

    /// <summary>A new station, enrolled in a browser of its own.</summary>
    public static async Task<Tablet> EnrolAsync(DemoServer demo, Chromium chromium)
    {
        await using var desk = await demo.VisitAsync(chromium, Texts.Role_Supervisor, 1440, 900);
        var (name, link) = await OfferAsync(desk);
        var visit = await demo.VisitAsync(chromium, null);
        await visit.GoAsync(link);
        await visit.Page.GetByRole(AriaRole.Button, new() { Name = Texts.Station_Enrol }).ClickAsync();
        await visit.Page.Locator(".tiles").WaitForAsync();
        return new Tablet(visit, name);
    }

    /// <summary>Adds a station in the set-up.</summary>
    /// <returns>Its name, and the link that makes a tablet the station.</returns>
    public static async Task<(string Name, string Link)> OfferAsync(Visit desk)
    {
        var name = $"Bay {RandomNumberGenerator.GetHexString(8)}";
        await desk.GoAsync("/setup/stations");
        await desk.Page.Locator("#f-name").FillAsync(name);
        await desk.Page.Locator("form.setform button[type=submit]").ClickAsync();
        var link = await desk.Page.Locator("[data-link]").InnerTextAsync();
        return (name, new Uri(link.Trim()).PathAndQuery);
    }

    public async Task LetInAsync(string person, string pin)
    {
        await Page.Locator(".tile", new() { HasText = person }).ClickAsync();
        await TypePinAsync(pin);
        await Page.WaitForURLAsync(u => !u.Contains("/account/station", StringComparison.Ordinal));
        await visit.SettleAsync();
    }

    /// <summary>With the digits on the page; the sixth sends them.</summary>
    public async Task TypePinAsync(string pin)
    {
        foreach (var digit in pin)
        {
            await Page.Locator($"#pinpad [data-digit='{digit}']").ClickAsync();
        }
    }

    public async Task ExpectDoorAsync()
    {
        await Page.WaitForURLAsync("**/account/station**");
        await Page.Locator(".tiles").WaitForAsync();
        Assert.Contains(name, await Page.Locator(".sub").InnerTextAsync(), StringComparison.Ordinal);
    }

    public ValueTask DisposeAsync() => visit.DisposeAsync();
}
