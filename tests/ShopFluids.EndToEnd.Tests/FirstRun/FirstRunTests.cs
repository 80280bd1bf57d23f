using System.Globalization;
using Microsoft.Playwright;
using ShopFluids.Core.Wording;
using ShopFluids.EndToEnd.Tests.Browser;
using ShopFluids.EndToEnd.Tests.Looks;
using ShopFluids.EndToEnd.Tests.Server;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.FirstRun;

/// <summary>A shop from nothing: the first person by the printed code, then set up by hand until a first reading is judged.</summary>
public sealed class FirstRunTests(Chromium chromium)
{
    [Fact]
    public async Task FirstRun_FromTheCodeToTheFirstReading_WorksByHand()
    {
        using var data = ServerData.New();
        await using var server = await ServerProcess.StartAsync(data);
        var code = await server.LineAsync(string.Format(CultureInfo.InvariantCulture, Texts.Account_FirstRunCodeLine, ""));
        await using var visit = await Visit.OpenAsync(chromium, server.Address, width: 1440, height: 900);
        await FirstPerson.OpenShopAsync(visit, code);
        await SetUpAsync(visit);

        // The sump is on the round at once; what is read is judged by the limits that the fluid brought.
        await visit.SizeAsync(800, 1280);
        await visit.GoAsync("/round?all=1");
        await visit.Page.Locator("a.stop", new() { HasText = "S-01" }).ClickAsync();
        await visit.SettleAsync();
        var entry = new EntryPage(visit);
        await entry.TypeAsync("4.0", "9.1", "300");
        await entry.SaveForSureAsync();
        await Assertions.Expect(visit.Page.Locator("section.verdict")).ToBeVisibleAsync();
        await Assertions.Expect(visit.Page.GetByRole(AriaRole.Region, new() { Name = Texts.Saved_Recipe })).ToBeVisibleAsync();

        await visit.SizeAsync(1440, 900);
        await visit.GoAsync("/board");
        await Assertions.Expect(visit.Page.GetByRole(AriaRole.Link, new() { Name = "S-01", Exact = true })).ToBeVisibleAsync();
        visit.ExpectNoFaults();
    }

    [Fact]
    public async Task FirstRun_BeforeAnybodyIsThere_LeadsToAPageThatKeepsStrangersOut()
    {
        using var data = ServerData.New();
        await using var server = await ServerProcess.StartAsync(data);
        await using var visit = await Visit.OpenAsync(chromium, server.Address);
        await visit.GoAsync("/board");
        Assert.EndsWith("/account/first-run", visit.Page.Url, StringComparison.Ordinal);
        foreach (var theme in new[] { "light", "dark" })
        {
            await visit.ThemeAsync(theme);
            var violations = await Axe.FindAsync(visit.Page);
            Assert.True(violations.Count == 0, string.Join('\n', violations));
        }

        await FirstPerson.FillAsync(visit, "AAAA-AAAA");
        await Assertions.Expect(visit.Page.Locator("#code-fault")).ToHaveTextAsync(Texts.Account_CodeRefused);
        await Assertions.Expect(visit.Page.Locator("#siteName")).ToHaveValueAsync("Millrace Works");
        visit.ExpectNoFaults();
    }

    private static async Task SetUpAsync(Visit visit)
    {
        var setup = new SetupSteps(visit);
        await setup.SaveAsync("/setup/areas", "Turning bay", ("name", "Turning bay"), ("walkOrder", "1"));
        await setup.SaveFluidAsync();
        await setup.SaveAsync("/setup/lots", "LOT-1", ("fluid", "Emulsion 50"), ("number", "LOT-1"), ("litres", "200"));
        await setup.SaveAsync(
            "/setup/sumps/new",
            "S-01",
            ("machineTag", "M-01"),
            ("machineName", "Turning centre"),
            ("weeklyHours", "60"),
            ("sumpTag", "S-01"),
            ("lengthMm", "1000"),
            ("widthMm", "500"),
            ("brimMm", "400"),
            ("fullMarkMm", "340"),
            ("pumpIntakeMm", "100"));
        await setup.SaveAsync("/setup/charges/fill", "S-01", ("sump", "S-01"), ("percent", "7.5"));

        await setup.OpenAsync("/setup/care/template?sump=S-01");
        await visit.Page.GetByRole(AriaRole.Button, new() { Name = Texts.Setup_TemplateApply }).ClickAsync();
        await visit.Page.WaitForURLAsync("**/setup/care?sump=S-01");
        await Assertions.Expect(visit.Page.Locator("table.plain tbody tr")).Not.ToHaveCountAsync(0);
    }
}
