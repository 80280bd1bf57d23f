using System.Net;
using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Sheets;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Web.Tests.Shop;

public sealed class RoundPageTests
{
    [Fact]
    public async Task Get_TestDueToday_ShowsTheSumpAndItsButton()
    {
        await using var host = await ShopHost.OpenAsync(shop => shop.StepAsync(Some.Step(TaskKind.Test)));

        var page = await host.GetAsync("/round");

        Assert.Equal(HttpStatusCode.OK, page.Status);
        Assert.Contains("of 1 sumps read", page.Text, StringComparison.Ordinal);
        Assert.Contains("Read S-07 now", page.Text, StringComparison.Ordinal);
        Assert.Contains("Concentration · pH", page.Text, StringComparison.Ordinal);
        Assert.Contains("M-07 Turning centre", page.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("style=", page.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Get_AfterReading_CountsItAsReadAndSaysWhatComesNext()
    {
        await using var host = await ShopHost.OpenAsync(async shop =>
        {
            await shop.StepAsync(Some.Step(TaskKind.Test));
            await shop.StoreAsync(Some.Reading());
        });

        var page = await host.GetAsync("/round");

        Assert.Contains("Nothing is due on this round", page.Text, StringComparison.Ordinal);
        Assert.Contains("The next is S-07, Mon 9 Mar.", page.Text, StringComparison.Ordinal);
        Assert.Contains("Read on this round", page.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Get_TestMissed_SaysHowLate()
    {
        await using var host = await ShopHost.OpenAsync(async shop =>
        {
            await shop.StepAsync(Some.Step(TaskKind.Test));
            shop.Clock.Advance(TimeSpan.FromDays(3));
        });

        Assert.Contains("2 days late", (await host.GetAsync("/round")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Get_All_ListsEverySumpInUse()
    {
        await using var host = await ShopHost.OpenAsync(shop => shop.SumpAsync(Some.Sump(Some.Id(), shop.AreaId, "S-08", "M-08")));

        var page = await host.GetAsync("/round?all=1");

        Assert.Contains("/enter/S-07", page.Html, StringComparison.Ordinal);
        Assert.Contains("Stands empty", page.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Get_ReadWithoutPh_SaysWhatIsStillToDo()
    {
        await using var host = await ShopHost.OpenAsync(async shop =>
        {
            await shop.StepAsync(Some.Step(TaskKind.Test));
            await shop.StoreAsync(Some.Reading(ph: null));
        });

        Assert.Contains("Still to do: pH", (await host.GetAsync("/round")).Text, StringComparison.Ordinal);
    }

    // Read this morning, and asked for again: who walks by must not think that nobody was there.
    [Fact]
    public async Task Get_ReadTodayAndAskedForAgain_SaysWhatOnceMore()
    {
        await using var host = await ShopHost.OpenAsync(shop => shop.StoreAsync(Some.Reading(ph: 8.4m)));

        var page = await host.GetAsync("/round");

        Assert.Contains("S-07 once more: pH", page.Text, StringComparison.Ordinal);
        Assert.DoesNotContain(Texts.Round_NotReadYet, page.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(1, false)]
    [InlineData(3, true)]
    public async Task Get_StopSmelledOfTheGas_WarnsBeforeAnybodyGoes(int odour, bool warns)
    {
        await using var host = await ShopHost.OpenAsync(async shop =>
        {
            await shop.StepAsync(Some.Step(TaskKind.Test));
            await shop.StoreAsync(Some.Reading() with { Measurements = [.. Some.Reading().Measurements, Some.Typed(ParameterCodes.Odour, odour)] });
            shop.Clock.Advance(TimeSpan.FromDays(7));
        });

        Assert.Equal(warns, (await host.GetAsync("/round")).Text.Contains(Texts.Caution_HydrogenSulphideShort, StringComparison.Ordinal));
    }

    // Due or not: chips and rows lead there alike, and so does the paper. The smell stays until somebody has smelled again.
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task Get_SumpIsDangerous_SaysSoOnTheRoundWhereverItStands(bool isDue)
    {
        await using var host = await ShopHost.OpenAsync(async shop =>
        {
            await shop.StepAsync(Some.Step(TaskKind.Test));
            await shop.StoreAsync(Some.Reading() with { Measurements = [.. Some.Reading().Measurements, Some.Typed(ParameterCodes.Odour, 3)] });
            shop.Clock.Advance(TimeSpan.FromDays(7));
            if (!isDue)
            {
                await shop.StoreAsync(Some.Reading(takenAt: shop.Now));
            }

            (await shop.Get<NoteDoseHandler>().HandleAsync(Some.Dose() with { GivenAtUtc = shop.Now }, Some.Supervisor, isSupervisor: true, TestContext.Current.CancellationToken)).Done();
        });

        foreach (var address in new[] { "/round", "/round?all=1" })
        {
            var round = (await host.GetAsync(address)).Text;

            Assert.Contains("Keep away until", round, StringComparison.Ordinal);
            Assert.Contains(Texts.Caution_HydrogenSulphideShort, round, StringComparison.Ordinal);
        }

        var sheet = await host.Services.GetRequiredService<RoundSheetQuery>().RunAsync(all: true, "", tag => tag, TestContext.Current.CancellationToken);
        Assert.Collection(sheet.Stops[0].Dangers, d => Assert.StartsWith("Keep away until", d, StringComparison.Ordinal), d => Assert.Equal(Texts.Caution_HydrogenSulphideShort, d));
    }

    [Fact]
    public async Task Get_WorkNearlyDue_StandsWithTheTest()
    {
        await using var host = await ShopHost.OpenAsync(async shop =>
        {
            await shop.StepAsync(Some.Step(TaskKind.Test));
            await shop.StepAsync(Some.Step(TaskKind.Skim, days: 14, anchor: new DateOnly(2026, 3, 4)));
            await shop.StepAsync(Some.Step(TaskKind.ChangeFilter, days: 28, anchor: new DateOnly(2026, 3, 2)));
        });

        Assert.Contains("Also: Change the return filter · Skim the tramp oil (due Wed 4 Mar)", (await host.GetAsync("/round")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Get_WorkDueWithoutATest_LeadsToTheTicksOfTheLastReading()
    {
        var reading = Guid.Empty;
        await using var host = await ShopHost.OpenAsync(async shop =>
        {
            await shop.StepAsync(Some.Step(TaskKind.Skim, days: 14));
            reading = (await shop.StoreAsync(Some.Reading())).ReadingId;
        });

        var page = await host.GetAsync("/round");

        Assert.Contains("Work without a test", page.Text, StringComparison.Ordinal);
        Assert.Contains($"/enter/S-07/saved/{reading:D}#todo", page.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Get_SomeNeedItMore_AreNamedAsFirstIfTimeIsShort()
    {
        await using var host = await ShopHost.OpenAsync(async shop =>
        {
            await shop.SumpAsync(Some.Sump(Some.Id(), shop.AreaId, "S-01", "M-01", walkOrder: 1));
            (await shop.FillAsync(Some.Fill(Some.Id(), shop.FluidId, shop.LotId, "S-01"))).Done();
            await shop.StepAsync(Some.Step(TaskKind.Test, "S-01"));
            await shop.StepAsync(Some.Step(TaskKind.Test));
            await shop.StoreAsync(Some.Reading(brix: 4));
            shop.Clock.Advance(TimeSpan.FromDays(7));
        });

        Assert.Matches("If time is short, first:\\s*S-07\\s*S-01", (await host.GetAsync("/round")).Text);
    }
}
