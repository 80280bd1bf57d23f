using Bunit;
using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.People;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Components.Shared;
using ShopFluids.Web.Components.Shared.Loading;
using ShopFluids.Web.Pages.Setup.Limits;
using ShopFluids.Web.Tests.Layout;
using Xunit;

namespace ShopFluids.Web.Tests.Setup;

public sealed class LimitsPageTests
{
    [Fact]
    public async Task Save_ChangedLimit_MakesTheNextVersionFromNowOn()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk);
        page.Type("limits.concentration.targetHigh", "8,5");

        await page.SaveAsync();

        var sets = (await desk.Shop.SetupAsync()).LimitSets.Where(l => l.FluidId == desk.Shop.FluidId).OrderBy(l => l.Number).ToList();
        Assert.Equal([1, 2], sets.Select(l => l.Number));
        Assert.Equal(desk.Shop.Now, sets[1].ValidFromUtc);
        Assert.Equal(8.5m, sets[1].Limits.Single(l => l.Parameter == ParameterCodes.Concentration).TargetHigh);
        Assert.Equal(9m, sets[0].Limits.Single(l => l.Parameter == ParameterCodes.Concentration).TargetHigh);
        Assert.Equal("Version 2 is in force from now on.", page.Find(".formfoot [role=status]").TextContent);
        Assert.Equal(2, page.FindAll(".versions li").Count);
    }

    [Fact]
    public async Task Save_Untouched_KeepsEveryOtherLimitAsItWas()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var before = (await desk.Shop.SetupAsync()).LimitSets.Single(l => l.FluidId == desk.Shop.FluidId).Limits;
        var page = Page(desk);

        await page.SaveAsync();

        var after = (await desk.Shop.SetupAsync()).LimitSets.Single(l => l.FluidId == desk.Shop.FluidId && l.Number == 2).Limits;
        Assert.Equal(before.OrderBy(l => l.Parameter).ThenBy(l => l.Basis), after.OrderBy(l => l.Parameter).ThenBy(l => l.Basis));
    }

    [Fact]
    public async Task Save_LadderDoesNotAscend_RefusesAtItsRowAndKeepsWhatWasTyped()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk);
        page.Type("limits.concentration.targetLow", "12");

        await page.SaveAsync();

        Assert.Equal("Concentration: the values must ascend.", page.FaultOf("limits.concentration"));
        Assert.Equal("12", page.ValueOf("limits.concentration.targetLow"));
        Assert.Single((await desk.Shop.SetupAsync()).LimitSets, l => l.FluidId == desk.Shop.FluidId);
    }

    [Fact]
    public async Task Save_BeyondThePlausible_RefusesAtTheRowOfTheValueNotOfTheFall()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk);
        page.Type("limits.ph.actionHigh", "15");

        await page.SaveAsync();

        Assert.Contains("15", page.FaultOf("limits.ph"), StringComparison.Ordinal);
        Assert.Null(page.FaultOf("limits.ph.fall"));
    }

    [Fact]
    public async Task Save_AnotherSavedMeanwhile_SaysSoAndStoresNothing()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk);
        var seen = (await desk.Shop.SetupAsync()).LimitSets.Single(l => l.FluidId == desk.Shop.FluidId);
        (await desk.Shop.Get<SetLimitsHandler>().HandleAsync(new SetLimits(Some.Id(), desk.Shop.FluidId, null, desk.Shop.Now, seen.Limits), Some.Supervisor, Xunit.TestContext.Current.CancellationToken)).Done();

        await page.SaveAsync();

        Assert.Equal(Texts.Error_ChangedMeanwhile, page.Find(".faults li").TextContent.Trim());
        Assert.Equal(2, (await desk.Shop.SetupAsync()).LimitSets.Count(l => l.FluidId == desk.Shop.FluidId));
    }

    [Fact]
    public async Task Remove_Row_LeavesItOutOfTheNextVersion()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk);
        await page.Find("#f-limits-nitrite").QuerySelectorAll("button").Single().ClickAsync(new());

        await page.SaveAsync();

        Assert.DoesNotContain((await desk.Shop.SetupAsync()).LimitSets.Single(l => l.FluidId == desk.Shop.FluidId && l.Number == 2).Limits, l => l.Parameter == ParameterCodes.Nitrite);
    }

    [Fact]
    public async Task Type_StricterLimit_ShowsWhatItWouldHaveSaidOfTheLastReadings()
    {
        await using var desk = await SetupDesk.OpenAsync();
        await desk.Shop.StoreAsync(Some.Reading(brix: 8.0m));
        var page = Page(desk);
        Assert.Contains("None of 1 readings would have another verdict.", Effect(page), StringComparison.Ordinal);

        page.Type("limits.concentration.warningLow", "8.5");
        page.Type("limits.concentration.targetLow", "8.5");
        desk.Shop.Clock.Advance(TypingPause.Length);

        page.WaitForAssertion(() => Assert.Contains("1 of 1 readings would have another verdict: 1 a worse one, 0 a better one.", Effect(page), StringComparison.Ordinal), SetupDesk.Patience);
        var row = page.FindAll("table.effect tbody tr")[0];
        Assert.Equal(["1, then 0", "0, then 1", "0", "0", "1"], row.QuerySelectorAll("td").Select(c => c.TextContent));
        Assert.Single((await desk.Shop.SetupAsync()).LimitSets, l => l.FluidId == desk.Shop.FluidId);
    }

    [Fact]
    public async Task Type_WhatCannotBeRead_SaysThatItCannotBeTold()
    {
        await using var desk = await SetupDesk.OpenAsync();
        await desk.Shop.StoreAsync(Some.Reading());
        var page = Page(desk);

        page.Type("limits.concentration.warningLow", "x");
        desk.Shop.Clock.Advance(TypingPause.Length);

        page.WaitForAssertion(() => Assert.Contains(Texts.Setup_EffectUnknown, Effect(page), StringComparison.Ordinal), SetupDesk.Patience);
    }

    [Fact]
    public async Task Draft_OfASump_DrawsTheTrendWithBothLimits()
    {
        await using var desk = await SetupDesk.OpenAsync();
        await desk.Shop.StoreAsync(Some.Reading());
        desk.Services.GetRequiredService<Microsoft.AspNetCore.Components.NavigationManager>().NavigateTo("setup/limits?sump=S-07");
        var page = Page(desk);
        Assert.Empty(page.FindAll("figure.trend"));

        page.Find(".addrow select").Change(ParameterCodes.Concentration);
        page.Type("limits.concentration.targetLow", "8.5");
        page.Type("limits.concentration.warningLow", "8.5");
        desk.Shop.Clock.Advance(TypingPause.Length);

        page.WaitForAssertion(() => Assert.Equal(2, page.FindAll("figure.trend").Count), SetupDesk.Patience);
        Assert.Equal("Concentration, % v/v: in force", page.FindAll("figure.trend title")[0].TextContent);
    }

    private static string Effect(IRenderedComponent<LimitsPage> page) => page.Find("[aria-labelledby=effect-title]").TextContent;

    private static IRenderedComponent<LimitsPage> Page(DeskContext desk)
    {
        var page = desk.Render<LimitsPage>();
        page.WaitForElement("form", SetupDesk.Patience);
        return page;
    }

    [Fact]
    public async Task Save_RolesTakenAwayMeanwhile_IsRefused()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk);
        await desk.OtherSupervisorAsync();
        (await desk.Shop.Get<ChangeAccountHandler>().HandleAsync(new ChangeRoles(DeskContext.SignInName, [Roles.Operator]), Actor.Program, Xunit.TestContext.Current.CancellationToken)).Done();

        await page.SaveAsync();

        Assert.Single((await desk.Shop.SetupAsync()).LimitSets, l => l.FluidId == desk.Shop.FluidId);
    }

    [Fact]
    public async Task Load_AfterThePageWasLeft_EndsQuietly()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = desk.Render<LeftPage>();

        page.Instance.Dispose();
        await page.Instance.ReadAgainAsync();

        Assert.Equal(1, page.Instance.Reads);
    }

    private sealed class LeftPage : LoadedPage<string>
    {
        public int Reads { get; private set; }

        public Task ReadAgainAsync() => LoadAsync();

        protected override Task<string> ReadAsync(DeskWords words, CancellationToken cancellationToken)
        {
            Reads++;
            return Task.FromResult("");
        }
    }
}
