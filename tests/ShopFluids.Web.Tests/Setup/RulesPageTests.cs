using Bunit;
using Microsoft.AspNetCore.Components;
using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.People;
using ShopFluids.Core.Record;
using ShopFluids.Core.Tuning;
using ShopFluids.Core.Wording;
using ShopFluids.Rules.Drift;
using ShopFluids.Rules.Registry;
using ShopFluids.Rules.RunDry;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Pages.Setup.Tuning;
using ShopFluids.Web.Tests.Layout;
using Xunit;

namespace ShopFluids.Web.Tests.Setup;

public sealed class RulesPageTests
{
    private static CancellationToken Stop => Xunit.TestContext.Current.CancellationToken;

    [Fact]
    public async Task Load_NothingSet_ShowsEveryRuleWithItsNumbersDefaultsAndRanges()
    {
        await using var desk = await SetupDesk.OpenAsync();

        var page = Page(desk, "setup/rules");

        Assert.Equal(RuleRegistry.All.Count, page.FindAll("section.rule").Count);
        var drift = page.Find("section.rule[aria-labelledby=rule-drift]");
        Assert.Contains(Texts.Rule_DriftLooksAt, drift.TextContent, StringComparison.Ordinal);
        Assert.Equal("On (default)", drift.QuerySelector(".ph .r")?.TextContent);
        var cells = drift.QuerySelectorAll("tbody tr")[0].Children.Select(c => c.TextContent);
        Assert.Equal([Texts.RuleNumber_HorizonDays, "14 days", "default", "14 days", "2 to 90 days"], cells);
        Assert.Contains(Texts.Setup_RuleChangesNone, page.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Save_NumberOfASump_HoldsAndTheChangeIsShown()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk, $"setup/rules?sump={Some.SumpTag}&rule=drift");
        page.Type("rules.drift.horizonDays", "21");
        page.Type("isOn", "off");
        page.Type("reason", "Small sump");

        await page.SaveAsync();

        var setting = Assert.Single((await desk.Shop.SetupAsync()).RuleSettings);
        Assert.Equal((desk.Shop.SumpId, 1, false, "Small sump"), (setting.SumpId, setting.Number, setting.IsOn, setting.Reason));
        Assert.Equal(new Dictionary<string, decimal> { [DriftRule.HorizonDays] = 21 }, setting.Numbers);
        Assert.Equal("Version 1 is in force from now on.", page.Find(".formfoot [role=status]").TextContent);
        var change = page.FindAll("section.panel:not(.rule) tbody tr").Single();
        Assert.Contains("Off; How far ahead: 21 days", change.TextContent, StringComparison.Ordinal);
        Assert.Contains("Small sump", change.TextContent, StringComparison.Ordinal);
        Assert.Equal("21", page.ValueOf("rules.drift.horizonDays"));

        page.Type("rules.drift.horizonDays", "");
        page.Type("reason", "Back");
        await page.SaveAsync();

        Assert.Equal([1, 2], (await desk.Shop.SetupAsync()).RuleSettings.Select(s => s.Number).Order());
    }

    [Fact]
    public async Task Save_OutsideTheRangeAndNoReason_RefusesAtTheFieldsAndStoresNothing()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk, "setup/rules?rule=drift");
        page.Type("rules.drift.horizonDays", "91");

        await page.SaveAsync();
        Assert.Equal("Reason is missing.", page.FaultOf("reason"));
        page.Type("reason", "Trial");
        await page.SaveAsync();

        Assert.Equal("How far ahead 91 days is outside the accepted range of 2 days to 90 days.", page.FaultOf("rules.drift.horizonDays"));
        Assert.Equal("91", page.ValueOf("rules.drift.horizonDays"));
        Assert.Empty((await desk.Shop.SetupAsync()).RuleSettings);
    }

    [Fact]
    public async Task Form_OfASump_SaysWhatHoldsWhileABoxIsEmpty()
    {
        await using var desk = await SetupDesk.OpenAsync();
        await SetAsync(desk, new SetRule(Some.Id(), DriftRule.RuleCode, desk.Shop.FluidId, null, null, new Dictionary<string, decimal> { [DriftRule.HorizonDays] = 10 }, "Wears fast", 0));

        var page = Page(desk, $"setup/rules?sump={Some.SumpTag}&rule=drift");

        Assert.Equal("", page.ValueOf("rules.drift.horizonDays"));
        Assert.Equal("Empty: 10 days (fluid). 2 to 90 days are accepted.", page.Find("#f-rules-drift-horizonDays-hint").TextContent);
    }

    [Fact]
    public async Task Save_AnotherSavedMeanwhile_SaysSoAndStoresNothing()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk, "setup/rules?rule=drift");
        await SetAsync(desk, new SetRule(Some.Id(), DriftRule.RuleCode, null, null, false, new Dictionary<string, decimal>(), "Meanwhile", 0));
        page.Type("rules.drift.horizonDays", "20");
        page.Type("reason", "Trial");

        await page.SaveAsync();

        Assert.Equal(Texts.Error_ChangedMeanwhile, page.Find(".faults li").TextContent.Trim());
        Assert.Equal("Meanwhile", Assert.Single((await desk.Shop.SetupAsync()).RuleSettings).Reason);
    }

    [Fact]
    public async Task Save_RolesTakenAwayMeanwhile_IsRefused()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk, "setup/rules?rule=drift");
        page.Type("isOn", "off");
        page.Type("reason", "Trial");
        await desk.OtherSupervisorAsync();
        (await desk.Shop.Get<ChangeAccountHandler>().HandleAsync(new ChangeRoles(DeskContext.SignInName, [Roles.Operator]), Actor.Program, Stop)).Done();

        await page.SaveAsync();

        Assert.Equal(Texts.Setup_MayNot, page.Find(".faults li").TextContent.Trim());
        Assert.Empty((await desk.Shop.SetupAsync()).RuleSettings);
    }

    [Fact]
    public async Task Rejudge_AfterAChange_SaysWhatItDidAndWantsAReason()
    {
        await using var desk = await SetupDesk.OpenAsync();
        await desk.Shop.StoreAsync(Some.Reading(levelMm: 200));
        await SetAsync(desk, new SetRule(Some.Id(), RunDryRule.RuleCode, null, null, null, new Dictionary<string, decimal> { [RunDryRule.NeededLitres] = 80 }, "Measured", 0));
        var page = Page(desk, "setup/rules");

        await page.SaveAsync();
        Assert.Equal("Reason is missing.", page.FaultOf("reason"));
        page.Type("reason", "Measured at the return");
        await page.SaveAsync();

        Assert.Equal("Judged again: sumps 1, flags raised 1, flags ended 0.", page.Find(".formfoot [role=status]").TextContent);
        Assert.Equal("", page.ValueOf("reason"));
        Assert.Equal(1, await desk.Shop.CountAsync<Core.Flags.Flag>());
    }

    private static IRenderedComponent<RulesPage> Page(DeskContext desk, string address)
    {
        desk.Services.GetRequiredService<NavigationManager>().NavigateTo(address);
        var page = desk.Render<RulesPage>();
        page.WaitForElement("section.rule", SetupDesk.Patience);
        return page;
    }

    private static async Task SetAsync(DeskContext desk, SetRule command) =>
        (await desk.Shop.Get<SetRuleHandler>().HandleAsync(command, Some.Supervisor, Stop)).Done();
}
