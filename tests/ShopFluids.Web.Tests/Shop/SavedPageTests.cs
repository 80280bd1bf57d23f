using System.Globalization;
using System.Net;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Doses;
using ShopFluids.Core.People;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Web.Tests.Shop;

public sealed class SavedPageTests
{
    // 5 % and 250 mm (125 L) in a sump of 170 L at the full mark: the pH beyond its action limit, the concentration under its warning limit.
    private static async Task<(ShopHost Host, string Address)> OpenAsync(Func<ShopFixture, Task>? also = null, string role = Roles.Operator)
    {
        var address = "";
        var host = await ShopHost.OpenAsync(
            async shop =>
            {
                await (also?.Invoke(shop) ?? Task.CompletedTask);
                var outcome = await shop.StoreAsync(Some.Reading(brix: 5, ph: 8.1m, levelMm: 250, note: "after the weekend"));
                address = $"/enter/S-07/saved/{outcome.ReadingId}";
            },
            role);
        return (host, address);
    }

    [Fact]
    public async Task Get_LowSump_SaysTheVerdictTheRecipeAndTheLot()
    {
        var (host, address) = await OpenAsync();
        await using var _ = host;

        var page = await host.GetAsync(address);

        Assert.Equal(HttpStatusCode.OK, page.Status);
        Assert.Contains("Action: pH low", page.Text, StringComparison.Ordinal);
        Assert.Contains("is under the action limit of", page.Text, StringComparison.Ordinal);
        Assert.Contains("fills to the 170.0 L mark", page.Text, StringComparison.Ordinal);
        Assert.Contains("lot L-1", page.Text, StringComparison.Ordinal);
        Assert.Contains("125.0 L", page.Text, StringComparison.Ordinal);
        Assert.Contains("Added as above", page.Text, StringComparison.Ordinal);
        Assert.Contains("Gloves and goggles.", page.Text, StringComparison.Ordinal);
        Assert.Contains("after the weekend", page.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("style=", page.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Get_DosedToday_SaysUntilWhenPeopleKeepAway()
    {
        var (host, address) = await OpenAsync();
        await using var _ = host;
        Assert.DoesNotContain("Keep away", (await host.GetAsync(address)).Text, StringComparison.OrdinalIgnoreCase);

        (await host.Shop.Get<NoteDoseHandler>().HandleAsync(Some.Dose() with { VolumeLitres = 120 }, Some.Operator, isSupervisor: false, TestContext.Current.CancellationToken)).Done();

        Assert.Contains("Keep away", (await host.GetAsync(address)).Text, StringComparison.OrdinalIgnoreCase);
    }

    // All values in range, and the sump holds 30 L that nobody wrote down: what the rules see besides the limits has its own block.
    [Fact]
    public async Task Get_BalanceThatDoesNotClose_StandsBesideTheVerdictWithItsAdvice()
    {
        var address = "";
        await using var host = await ShopHost.OpenAsync(async shop =>
        {
            await shop.StoreAsync(Some.Reading(brix: 8.8m, levelMm: 260, takenAt: shop.Now.AddDays(-5)));
            address = $"/enter/S-07/saved/{(await shop.StoreAsync(Some.Reading(brix: 7.2m, levelMm: 320))).ReadingId}";
        });

        var page = await host.GetAsync(address);

        Assert.Contains("In range", page.Text, StringComparison.Ordinal);
        Assert.Contains("The balance of the charge", page.Text, StringComparison.Ordinal);
        Assert.Contains("of water that nobody wrote down", page.Text, StringComparison.Ordinal);
        Assert.Contains("Look for water added without a record", page.Text, StringComparison.Ordinal);
        Assert.Contains("Look for the cause: The balance of the charge", page.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Get_CorrectedReading_IsStruckThroughWithTheWayToTheOneThatCounts()
    {
        var (old, now) = ("", "");
        await using var host = await ShopHost.OpenAsync(async shop =>
        {
            var wrong = Some.Reading(brix: 12.4m);
            await shop.StoreAsync(wrong);
            var right = await shop.StoreAsync(Some.Reading(brix: 8.3m, supersedes: wrong.Id, reason: "typed the percentage"));
            (old, now) = ($"/enter/S-07/saved/{wrong.Id}", $"/enter/S-07/saved/{right.ReadingId}");
        });

        var page = await host.GetAsync(old);

        Assert.Contains("<s>12.4 %</s>", page.Html, StringComparison.Ordinal);
        Assert.Contains("typed the percentage", page.Text, StringComparison.Ordinal);
        Assert.Contains($"href=\"{now}\"", page.Html, StringComparison.Ordinal);
        Assert.DoesNotContain("<s>", (await host.GetAsync(now)).Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Post_AddedAsAbove_NotesTheRecipeOnceAndEndsTheAdjustment()
    {
        var (host, address) = await OpenAsync();
        await using var _ = host;
        var form = await host.GetAsync(address);
        var fields = new Dictionary<string, string> { ["id"] = form.Hidden("id"), ["asRecipe"] = "1", ["lot"] = form.Hidden("lot") };

        var first = await host.PostAsync($"{address}/added", fields, from: address);
        var second = await host.PostAsync($"{address}/added", fields, from: address);

        Assert.Equal(HttpStatusCode.SeeOther, first.Status);
        Assert.Equal(HttpStatusCode.SeeOther, second.Status);
        var addition = await host.Shop.ReadAsync(db => db.Additions.SingleAsync(a => a.ReadingId != null));
        Assert.Equal(host.Shop.LotId, addition.LotId);
        Assert.Equal(45m, addition.WaterLitres + addition.ConcentrateLitres);
        Assert.Equal(0, await host.Shop.ReadAsync(db => db.CareTasks.CountAsync(t => t.Kind == TaskKind.Adjust && t.State == TaskState.Open)));
        Assert.Contains("Added today 08:00:", (await host.GetAsync(address)).Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("waterLitres", "ten", "ten is not a number")]
    [InlineData("waterLitres", "ten", "The accepted range is 0 L to 100,000 L")]
    [InlineData("waterLitres", "-1", "is outside the accepted range")]
    [InlineData("waterLitres", "90", "Water 90 L is over the brim. The accepted range is 0 L to 73.5 L")]
    [InlineData("lot", "", "is missing")]
    public async Task Post_OtherAmountsRefused_SaysSoAtTheFieldAndKeepsWhatWasTyped(string field, string value, string sentence)
    {
        var (host, address) = await OpenAsync();
        await using var _ = host;
        var before = await host.Shop.FootprintAsync();
        var typed = new Dictionary<string, string> { ["waterLitres"] = "20", ["concentrateLitres"] = "1,5", ["lot"] = host.Shop.LotId.ToString() };
        typed[field] = value;

        var page = await host.PostAsync($"{address}/added", typed, from: address);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains(sentence, page.Text, StringComparison.Ordinal);
        Assert.Contains("value=\"1,5\"", page.Html, StringComparison.Ordinal);
        Assert.Contains($"id=\"{field}-fault\"", page.Html, StringComparison.Ordinal);
        Assert.Equal(before, await host.Shop.FootprintAsync());
    }

    // 125 L to begin with, 170 L at the full mark.
    [Theory]
    [InlineData("", "4", "neat concentrate does not mix in a sump")]
    [InlineData("49", "1", "With that the sump holds 175.0 L, 5.0 L above its full mark")]
    public async Task Post_UnusualAmounts_AreAskedAboutOnceAndStoredWhenTheyWereSo(string water, string concentrate, string question)
    {
        var (host, address) = await OpenAsync();
        await using var _ = host;
        var before = await host.Shop.FootprintAsync();
        var typed = new Dictionary<string, string> { ["waterLitres"] = water, ["concentrateLitres"] = concentrate, ["lot"] = host.Shop.LotId.ToString() };

        var asked = await host.PostAsync($"{address}/added", typed, from: address);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, asked.Status);
        Assert.Contains(question, asked.Text, StringComparison.Ordinal);
        Assert.Contains($"value=\"{concentrate}\"", asked.Html, StringComparison.Ordinal);
        Assert.Equal(before, await host.Shop.FootprintAsync());

        typed["confirm"] = "7/7/";
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await host.PostAsync($"{address}/added", typed, from: address)).Status);

        typed["confirm"] = $"{water}/{concentrate}/";
        Assert.Equal(HttpStatusCode.SeeOther, (await host.PostAsync($"{address}/added", typed, from: address)).Status);
        Assert.Equal(decimal.Parse(concentrate, CultureInfo.InvariantCulture), (await host.Shop.ReadAsync(db => db.Additions.SingleAsync(a => a.ReadingId != null))).ConcentrateLitres);
    }

    // The answer was lost, and the same page is sent again: with what it added itself, the sump would stand above its mark a second time.
    [Fact]
    public async Task Post_SameAdditionAgain_IsNotAskedAbout()
    {
        var (host, address) = await OpenAsync();
        await using var _ = host;
        var typed = new Dictionary<string, string> { ["id"] = Some.Id().ToString(), ["waterLitres"] = "30", ["concentrateLitres"] = "2", ["lot"] = host.Shop.LotId.ToString() };

        Assert.Equal(HttpStatusCode.SeeOther, (await host.PostAsync($"{address}/added", typed, from: address)).Status);
        Assert.Equal(HttpStatusCode.SeeOther, (await host.PostAsync($"{address}/added", typed, from: address)).Status);

        Assert.Equal(1, await host.Shop.ReadAsync(db => db.Additions.CountAsync(a => a.ReadingId != null)));
    }

    // What is wrong comes first, and the answer to the question stays given.
    [Fact]
    public async Task Post_UnusualAmountsWithoutALot_AsksForTheLotAndThenOnce()
    {
        var (host, address) = await OpenAsync();
        await using var _ = host;
        var typed = new Dictionary<string, string> { ["concentrateLitres"] = "4", ["lot"] = "" };

        var refused = await host.PostAsync($"{address}/added", typed, from: address);
        Assert.Contains("is missing", refused.Text, StringComparison.Ordinal);
        Assert.DoesNotContain(Texts.Saved_AskHeading, refused.Text, StringComparison.Ordinal);

        typed["confirm"] = "/4/";
        var again = await host.PostAsync($"{address}/added", typed, from: address);
        Assert.Contains("name=\"confirm\" value=\"/4/\"", again.Html, StringComparison.Ordinal);

        typed["lot"] = host.Shop.LotId.ToString();
        Assert.Equal(HttpStatusCode.SeeOther, (await host.PostAsync($"{address}/added", typed, from: address)).Status);
    }

    [Fact]
    public async Task Get_FilledAboveTheMark_SaysToTakeOutAndShowsNoGoodMark()
    {
        var (host, address) = await OpenAsync();
        await using var _ = host;
        await host.PostAsync($"{address}/added", new() { ["waterLitres"] = "49", ["concentrateLitres"] = "6", ["confirm"] = "49/6/", ["lot"] = host.Shop.LotId.ToString() }, from: address);

        var page = await host.GetAsync(address);

        Assert.Contains("That is 10.0 L above the full mark: add nothing more", page.Text, StringComparison.Ordinal);
        Assert.Contains(Texts.Saved_MeasureAgain, page.Text, StringComparison.Ordinal);
    }

    // A concentration far under what the charge explains is measured again before anybody pours for it.
    [Fact]
    public async Task Get_DoubtfulConcentration_SaysToLookAgainBeforeTheRecipe()
    {
        var address = "";
        await using var host = await ShopHost.OpenAsync(async shop =>
        {
            for (var day = 9; day > 0; day--)
            {
                await shop.StoreAsync(Some.Reading(brix: 8.2m + (0.1m * (day % 3)), takenAt: shop.Now.AddDays(-day)));
            }

            address = $"/enter/S-07/saved/{(await shop.StoreAsync(Some.Reading(brix: 5.2m))).ReadingId}";
        });

        Assert.Contains(Texts.Saved_LookFirst, (await host.GetAsync(address)).Text, StringComparison.Ordinal);
    }

    // What is wrong lies far down the page: it opens there.
    [Fact]
    public async Task Post_TwoFaults_PutsTheCursorInTheFirst()
    {
        var (host, address) = await OpenAsync();
        await using var _ = host;

        var page = await host.PostAsync($"{address}/added", new() { ["waterLitres"] = "5", ["concentrateLitres"] = "some", ["lot"] = "" }, from: address);

        var focused = Assert.Single(page.Html.Split('<'), tag => tag.Contains(" autofocus", StringComparison.Ordinal));
        Assert.Contains("name=\"concentrateLitres\"", focused, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Get_OtherAmountsPoured_SaysThemWithWhatWasTakenOutAndWhereTheyLead()
    {
        var (host, address) = await OpenAsync();
        await using var _ = host;
        var recipe = (await host.GetAsync(address)).Text;
        Assert.Contains("Then", recipe, StringComparison.Ordinal);

        await host.PostAsync($"{address}/added", new() { ["waterLitres"] = "10", ["concentrateLitres"] = "2", ["removedLitres"] = "4", ["lot"] = host.Shop.LotId.ToString() }, from: address);

        var page = await host.GetAsync(address);
        Assert.Contains("10.0 L water, 2.0 L concentrate, lot L-1, after 4.0 L were taken out", page.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("give or take", page.Text, StringComparison.Ordinal);
        Assert.Contains("Proposed was: 38.3 L water with 6.7 L concentrate", page.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("class=\"amts\"", page.Html, StringComparison.Ordinal);
        Assert.Contains("With what was added it came to 133.0 L at 6.1 % . Target 7.0 to 9.0 %.", page.Text, StringComparison.Ordinal);
        Assert.Contains(Texts.Saved_ReckonedWeak, page.Text, StringComparison.Ordinal);
    }

    // Two additions are reckoned in their order; too strong is said so.
    [Fact]
    public async Task Get_TwoAdditionsTooStrong_SaysNotToAddMore()
    {
        var (host, address) = await OpenAsync();
        await using var _ = host;
        foreach (var concentrate in new[] { "4", "6" })
        {
            await host.PostAsync($"{address}/added", new() { ["concentrateLitres"] = concentrate, ["confirm"] = $"/{concentrate}/", ["lot"] = host.Shop.LotId.ToString() }, from: address);
        }

        var page = await host.GetAsync(address);

        Assert.Contains("it came to 135.0 L at 12.0 %", page.Text, StringComparison.Ordinal);
        Assert.Contains(Texts.Saved_ReckonedStrong, page.Text, StringComparison.Ordinal);
    }

    // Water that a program noted without the reading is not known to the page's own sums.
    [Fact]
    public async Task Get_SomethingElsePouredSince_SaysNotWhatItCameTo()
    {
        var (host, address) = await OpenAsync();
        await using var _ = host;
        await host.PostAsync($"{address}/added", new() { ["waterLitres"] = "10", ["concentrateLitres"] = "2", ["lot"] = host.Shop.LotId.ToString() }, from: address);
        Assert.Contains("it came to", (await host.GetAsync(address)).Text, StringComparison.Ordinal);

        (await host.Shop.AddAsync(Some.Addition(host.Shop.LotId, water: 5, concentrate: 0, at: host.Shop.Now))).Done();

        Assert.DoesNotContain("it came to", (await host.GetAsync(address)).Text, StringComparison.Ordinal);
    }

    // A reading of the smell alone: nothing to reckon from, but what was poured can be noted.
    [Fact]
    public async Task Get_NeitherLevelNorConcentration_SaysSoAndTakesWhatWasAdded()
    {
        var address = "";
        await using var host = await ShopHost.OpenAsync(async shop =>
        {
            await shop.StoreAsync(Some.Reading(takenAt: shop.Now.AddHours(-1)));
            address = $"/enter/S-07/saved/{(await shop.StoreAsync(Some.ReadingOf(Some.Typed(ParameterCodes.Ph, 9.1m)))).ReadingId}";
        });

        Assert.Contains("neither a level nor a concentration", (await host.GetAsync(address)).Text, StringComparison.Ordinal);
        var posted = await host.PostAsync($"{address}/added", new() { ["waterLitres"] = "3" }, from: address);

        Assert.Equal(HttpStatusCode.SeeOther, posted.Status);
        Assert.Contains("3.0 L water", (await host.GetAsync(address)).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Post_ExpiredLot_IsRefusedForAnOperatorAndAllowedToASupervisorWithAReason()
    {
        var lotId = Some.Id();
        var (host, address) = await OpenAsync(
            async shop => (await shop.Get<ReceiveLotHandler>().HandleAsync(Some.Lot(lotId, shop.FluidId, "L-0", expires: new DateOnly(2026, 2, 20)), Some.Supervisor, default)).Done(),
            Roles.Supervisor);
        await using var _ = host;
        var typed = new Dictionary<string, string> { ["waterLitres"] = "20", ["concentrateLitres"] = "1", ["lot"] = lotId.ToString() };

        var refused = await host.PostAsync($"{address}/added", typed, from: address);
        typed["overrideReason"] = "tested today, fit for use";
        var done = await host.PostAsync($"{address}/added", typed, from: address);

        Assert.Contains("Lot L-0 has expired", refused.Text, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.SeeOther, done.Status);
        Assert.Equal("tested today, fit for use", (await host.Shop.ReadAsync(db => db.Additions.SingleAsync(a => a.LotId == lotId))).OverrideReason);
    }

    [Fact]
    public async Task Get_NoUsableLot_SaysSoInsteadOfOfferingTheRecipe()
    {
        var (host, address) = await OpenAsync(async shop =>
            (await shop.Get<QuarantineLotHandler>().HandleAsync(new QuarantineLot(shop.LotId, "smells"), Some.Supervisor, default)).Done());
        await using var _ = host;

        var page = await host.GetAsync(address);

        Assert.Contains("No lot holds enough.", page.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("Added as above", page.Text, StringComparison.Ordinal);
        Assert.Contains("in quarantine", page.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Post_TaskDoneAndSkipped_EndsItAndAsksWhy()
    {
        var (host, address) = await OpenAsync(async shop =>
        {
            await shop.StepAsync(Some.Step(TaskKind.Skim));
            await shop.StepAsync(Some.Step(TaskKind.ChangeFilter));
        });
        await using var _ = host;
        var skim = await host.Shop.ReadAsync(db => db.CareTasks.FirstAsync(t => t.Kind == TaskKind.Skim && t.State == TaskState.Open));
        var filter = await host.Shop.ReadAsync(db => db.CareTasks.FirstAsync(t => t.Kind == TaskKind.ChangeFilter && t.State == TaskState.Open));

        var done = await host.PostAsync($"{address}/tasks/{skim.Id}", new() { ["state"] = "done" }, from: address);
        var unreasoned = await host.PostAsync($"{address}/tasks/{filter.Id}", new() { ["state"] = "skipped", ["reason"] = " " }, from: address);
        var skipped = await host.PostAsync($"{address}/tasks/{filter.Id}", new() { ["state"] = "skipped", ["reason"] = "changed on Friday" }, from: address);

        Assert.Equal(HttpStatusCode.SeeOther, done.Status);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, unreasoned.Status);
        Assert.Contains("is missing", unreasoned.Text, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.SeeOther, skipped.Status);
        var page = await host.GetAsync(address);
        Assert.Contains("done 08:00", page.Text, StringComparison.Ordinal);
        Assert.Contains("changed on Friday", page.Text, StringComparison.Ordinal);
        Assert.Contains("1 done, 1 skipped of 3", page.Text, StringComparison.Ordinal);
    }

    // A dose is no tick: it is noted with what its label says, at the desk.
    [Fact]
    public async Task Get_DoseIsDue_LeadsToNotingItAndIsNotTicked()
    {
        var (host, address) = await OpenAsync(shop => shop.StepAsync(Some.Step(TaskKind.Dose)));
        await using var _ = host;
        var dose = await host.Shop.ReadAsync(db => db.CareTasks.SingleAsync(t => t.Kind == TaskKind.Dose));

        var page = await host.GetAsync(address);

        Assert.Contains("href=\"/sumps/S-07/dose\"", page.Html, StringComparison.Ordinal);

        // Only the form to skip it.
        Assert.Single(page.Html.Split($"tasks/{dose.Id}")[1..]);
        var posted = await host.PostAsync($"{address}/tasks/{dose.Id}", new() { ["state"] = "done" }, from: address);
        Assert.Contains(Texts.Error_DoseNotTickedOff, posted.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Post_DoneWithWhatWasFound_IsKeptAndSaidInPlace()
    {
        var (host, address) = await OpenAsync(async shop =>
        {
            await shop.StepAsync(Some.Step(TaskKind.Skim));
            await shop.StepAsync(Some.Step(TaskKind.ChangeFilter));
        });
        await using var _ = host;
        var (skim, filter) = (await OpenTaskAsync(host, TaskKind.Skim), await OpenTaskAsync(host, TaskKind.ChangeFilter));

        var tooMuch = await host.PostAsync($"{address}/tasks/{skim}", new() { ["state"] = "done", ["found"] = "1000,5", ["foundNote"] = "whole drum" }, from: address);
        var noNumber = await host.PostAsync($"{address}/tasks/{skim}", new() { ["state"] = "done", ["found"] = "much" }, from: address);
        var done = await host.PostAsync($"{address}/tasks/{skim}", new() { ["state"] = "done", ["found"] = "1,5", ["foundNote"] = "belt worn" }, from: address);
        var changed = await host.PostAsync($"{address}/tasks/{filter}", new() { ["state"] = "done", ["found"] = "1", ["foundNote"] = "" }, from: address);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, tooMuch.Status);
        Assert.Contains("Oil taken off 1,000.5 L is outside the accepted range of 0 L to 200 L.", tooMuch.Text, StringComparison.Ordinal);
        Assert.Contains("value=\"1000,5\"", tooMuch.Html, StringComparison.Ordinal);
        Assert.Contains("value=\"whole drum\"", tooMuch.Html, StringComparison.Ordinal);
        Assert.Contains("0 L to 200 L", noNumber.Text, StringComparison.Ordinal);
        Assert.Equal((HttpStatusCode.SeeOther, HttpStatusCode.SeeOther), (done.Status, changed.Status));
        var page = await host.GetAsync(address);
        Assert.Contains("1.5 L of oil taken off; belt worn", page.Text, StringComparison.Ordinal);
        Assert.Contains("filter half full", page.Text, StringComparison.Ordinal);
    }

    private static Task<Guid> OpenTaskAsync(ShopHost host, TaskKind kind) =>
        host.Shop.ReadAsync(db => db.CareTasks.Where(t => t.Kind == kind && t.State == TaskState.Open).Select(t => t.Id).FirstAsync());

    // An operator is told who may skip the draining of a sump beyond its action limit; a supervisor finds the way.
    [Theory]
    [InlineData(Roles.Operator, 0)]
    [InlineData(Roles.Supervisor, 1)]
    public async Task Get_DrainingAtAction_IsSkippedByASupervisorOnly(string role, int ways)
    {
        var address = "";
        await using var host = await ShopHost.OpenAsync(
            async shop => address = $"/enter/S-07/saved/{(await shop.StoreAsync(Some.ReadingOf(Some.Typed(ParameterCodes.Bacteria, 6)))).ReadingId}", role);
        var drain = await host.Shop.ReadAsync(db => db.CareTasks.SingleAsync(t => t.Kind == TaskKind.DrainClean));

        var page = await host.GetAsync(address);
        var skipped = await host.PostAsync($"{address}/tasks/{drain.Id}", new() { ["state"] = "skipped", ["reason"] = "no time" }, from: address);

        Assert.Equal(ways, page.Html.Split("class=\"skip\"").Length - 1);
        Assert.Equal(ways == 0, page.Text.Contains("Only a supervisor may skip this", StringComparison.Ordinal));
        Assert.Equal(ways == 0 ? HttpStatusCode.UnprocessableEntity : HttpStatusCode.SeeOther, skipped.Status);
        Assert.Equal(ways == 0, skipped.Text.Contains("Only a supervisor may skip this draining", StringComparison.Ordinal));
        Assert.Equal(ways == 0 ? TaskState.Open : TaskState.Skipped, await host.Shop.ReadAsync(db => db.CareTasks.Where(t => t.Id == drain.Id).Select(t => t.State).SingleAsync()));
    }

    [Fact]
    public async Task Get_ReadAgainSince_ShowsTheOldAdviceWithoutItsButtons()
    {
        var (host, address) = await OpenAsync();
        await using var _ = host;
        host.Shop.Clock.Advance(TimeSpan.FromHours(1));
        await host.Shop.StoreAsync(Some.Reading(takenAt: host.Shop.Now));

        var page = await host.GetAsync(address);

        Assert.Contains("The sump was read again since", page.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("Added as above", page.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Get_Auditor_ReadsWithoutButtons()
    {
        var (host, address) = await OpenAsync(role: Roles.Auditor);
        await using var _ = host;

        var page = await host.GetAsync(address);

        Assert.Equal(HttpStatusCode.OK, page.Status);
        Assert.DoesNotContain("<form", page.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Get_ReadingOfAnotherSump_IsNotFound()
    {
        await using var host = await ShopHost.OpenAsync();

        Assert.Equal(HttpStatusCode.NotFound, (await host.GetAsync($"/enter/S-07/saved/{Some.Id()}")).Status);
    }

    [Fact]
    public async Task Get_FullAndOnTarget_HasNothingToAdd()
    {
        var address = "";
        await using var host = await ShopHost.OpenAsync(async shop => address = $"/enter/S-07/saved/{(await shop.StoreAsync(Some.Reading(levelMm: 340))).ReadingId}");

        var page = await host.GetAsync(address);

        Assert.Contains("Nothing to add", page.Text, StringComparison.Ordinal);
        Assert.Contains("Everything measured lies inside its limits.", page.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("Added as above", page.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Get_StrongAndFull_SaysWhatToTakeOutFirst()
    {
        var address = "";
        await using var host = await ShopHost.OpenAsync(async shop => address = $"/enter/S-07/saved/{(await shop.StoreAsync(Some.Reading(brix: 14, levelMm: 340))).ReadingId}");

        var page = await host.GetAsync(address);

        Assert.Contains("First take out", page.Text, StringComparison.Ordinal);
        Assert.True(page.Text.IndexOf("First take out", StringComparison.Ordinal) < page.Text.IndexOf("water", StringComparison.Ordinal));
        Assert.Contains("licensed carrier", page.Text, StringComparison.Ordinal);
    }
}
