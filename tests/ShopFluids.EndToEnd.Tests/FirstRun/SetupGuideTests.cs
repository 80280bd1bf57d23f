using System.Globalization;
using Microsoft.Playwright;
using ShopFluids.Core.Wording;
using ShopFluids.EndToEnd.Tests.Browser;
using ShopFluids.EndToEnd.Tests.Server;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.FirstRun;

/// <summary>The guided first set-up: from the empty board to ten machines by one list, and to the first sump to fill.</summary>
public sealed class SetupGuideTests(Chromium chromium)
{
    private const int Machines = 10;

    [Fact]
    public async Task Guide_FromTheEmptyBoard_SetsUpTenMachinesByOneList()
    {
        using var data = ServerData.New();
        await using var server = await ServerProcess.StartAsync(data);
        var code = await server.LineAsync(string.Format(CultureInfo.InvariantCulture, Texts.Account_FirstRunCodeLine, ""));
        await using var visit = await Visit.OpenAsync(chromium, server.Address, width: 1440, height: 900);
        await FirstPerson.OpenShopAsync(visit, code);
        await visit.Page.GetByRole(AriaRole.Link, new() { Name = Texts.Board_EmptyWay }).ClickAsync();
        await visit.Page.WaitForURLAsync("**/setup/start");
        await Assertions.Expect(visit.Page.Locator("li.next h2")).ToContainTextAsync(Texts.Start_Fluid);
        await new SetupSteps(visit).SaveFluidAsync();

        // One wrong line keeps all from being stored, and is named; put right, all are.
        await visit.GoAsync("/setup/start");
        await TypeAsync(visit, List(fullMark: 412));
        await Assertions.Expect(visit.Page.Locator("table.listed td.bad .fault")).ToHaveCountAsync(1);
        await visit.Page.Locator("form.setform button[type=submit]").ClickAsync();
        await Assertions.Expect(visit.Page.Locator(".faults li")).ToHaveCountAsync(1);
        await TypeAsync(visit, List(fullMark: 340));
        await Assertions.Expect(visit.Page.Locator("table.listed td.bad")).ToHaveCountAsync(0);
        await visit.Page.Locator("form.setform button[type=submit]").ClickAsync();
        await Assertions.Expect(visit.Page.Locator(".formfoot .said")).ToContainTextAsync(Machines.ToString(CultureInfo.InvariantCulture));

        await Assertions.Expect(visit.Page.Locator("li.next a.pri")).ToHaveAttributeAsync("href", "setup/charges/fill?sump=S-01");
        await visit.GoAsync("/sumps");
        await Assertions.Expect(visit.Page.GetByRole(AriaRole.Link, new() { Name = "S-10", Exact = true })).ToBeVisibleAsync();
        visit.ExpectNoFaults();
    }

    private static string List(int fullMark) => string.Join('\n', Enumerable.Range(1, Machines)
        .Select(n => string.Create(CultureInfo.InvariantCulture, $"S-{n:00}; M-{n:00} Turning centre; North bay; 1000 x 500 x 400; {(n == Machines ? fullMark : 340)}; 60")));

    private static async Task TypeAsync(Visit visit, string text)
    {
        await visit.Page.Locator("#f-machineList").FillAsync(text);
        await visit.Page.Locator("#f-machineList").PressAsync("Tab");
        await Assertions.Expect(visit.Page.Locator("table.listed tbody tr")).ToHaveCountAsync(Machines);
    }
}
