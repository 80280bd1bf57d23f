using System.Net;
using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.CleanOuts;
using ShopFluids.Core.Doses;
using ShopFluids.Core.People;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Web.Tests.Shop;

public sealed class CleanOutPageTests
{
    private const string Address = "/drain/S-07";

    [Fact]
    public async Task Get_NothingBegun_ShowsThePlanWithItsNumbers()
    {
        await using var host = await ShopHost.OpenAsync(shop => shop.StepAsync(Some.Step(TaskKind.DrainClean)));

        var page = await host.GetAsync(Address);

        Assert.Equal(HttpStatusCode.OK, page.Status);
        Assert.Contains("Drain and clean S-07", page.Text, StringComparison.Ordinal);
        Assert.Contains("150", page.Hidden("contentLitres"), StringComparison.Ordinal);
        Assert.Contains("This comes to 3.0 L of cleaner for 12 h", page.Text, StringComparison.Ordinal);
        Assert.Contains("Begin with this plan", page.Text, StringComparison.Ordinal);
        Assert.Contains("Step 1 of 12", page.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("style=", page.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Get_DosedToday_SaysUntilWhenPeopleKeepAway()
    {
        await using var host = await ShopHost.OpenAsync(async shop => (await shop.Get<NoteDoseHandler>().HandleAsync(Some.Dose(), Some.Operator, isSupervisor: false, TestContext.Current.CancellationToken)).Done());

        Assert.Contains("Keep away", (await host.GetAsync(Address)).Text, StringComparison.OrdinalIgnoreCase);
    }

    // Whoever drains it bends over it.
    [Theory]
    [InlineData(0, false)]
    [InlineData(3, true)]
    public async Task Get_SumpSmelledOfTheGas_WarnsBeforeTheFirstStep(int odour, bool warns)
    {
        await using var host = await ShopHost.OpenAsync(async shop => await shop.StoreAsync(Some.Reading() with { Measurements = [.. Some.Reading().Measurements, Some.Typed(ParameterCodes.Odour, odour)] }));

        Assert.Equal(warns, (await host.GetAsync(Address)).Text.Contains(Texts.Caution_HydrogenSulphide, StringComparison.Ordinal));
    }

    // The whole walk without script: each step leads back to the page, the last to the reading.
    [Fact]
    public async Task Post_EveryStepInOrder_EndsWithTheFirstReading()
    {
        await using var host = await ShopHost.OpenAsync(shop => shop.StepAsync(Some.Step(TaskKind.DrainClean)));
        await WalkAsync(host);

        var page = await host.GetAsync(Address);
        Assert.Contains("Saving closes charge 1 and opens charge 2", page.Text, StringComparison.Ordinal);
        var done = await FinishAsync(host, page, "8.0", "9.0", "320");

        Assert.Equal(HttpStatusCode.SeeOther, done.Status);
        var reading = await host.Shop.ReadAsync(db => db.Readings.SingleAsync());
        Assert.Equal($"/enter/S-07/saved/{reading.Id}", done.Location);
        Assert.Equal([1, 2], await host.Shop.ReadAsync(db => db.Charges.OrderBy(c => c.Number).Select(c => c.Number).ToListAsync()));
        Assert.Equal(141, await host.Shop.ReadAsync(db => db.Removals.Select(r => r.Litres).SingleAsync()));
        Assert.Equal(TaskState.Done, await host.Shop.ReadAsync(db => db.CareTasks.OrderBy(t => t.DueAtUtc).Select(t => t.State).FirstAsync()));
        Assert.Empty((await host.Shop.VerifyAsync()).Findings);

        // The button was pressed twice: the second press leads to the same place.
        var again = await FinishAsync(host, page, "8.0", "9.0", "320");
        Assert.Equal((HttpStatusCode.SeeOther, done.Location), (again.Status, again.Location));
        var stale = await host.SendAsync($"{Address}/steps/refill", Fields(page, ("waterLitres", "1")));
        Assert.Equal((HttpStatusCode.SeeOther, done.Location), (stale.Status, stale.Location));
    }

    [Theory]
    [InlineData("contentLitres", "much", "much is not a number")]
    [InlineData("contentLitres", "1,200", "1,200 may be thousands or a decimal")]
    [InlineData("contentLitres", "900", "900")]
    [InlineData("heelLitres", "", "missing")]
    [InlineData("rinses", "1.5", "Rinses")]
    public async Task Post_WrongPlan_StandsAtItsFieldWithWhatWasTyped(string field, string typed, string words)
    {
        await using var host = await ShopHost.OpenAsync();
        var fields = Plan();
        fields[field] = typed;

        var page = await host.PostAsync($"{Address}/steps/plan", fields, from: Address);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains($"id=\"plan-{field}-fault\"", page.Html, StringComparison.Ordinal);
        Assert.Contains(words, page.Text, StringComparison.Ordinal);
        Assert.Equal(typed, page.Hidden(field));
        Assert.Equal("12.5", page.Hidden("circulationHours"));
        Assert.Equal(0, await host.Shop.CountAsync<CleanOut>());
    }

    // Ticked within minutes of the step before: asked once, and what was typed stays. The answer stands with the step.
    [Fact]
    public async Task Post_CleanerBeforeItsHours_AsksWhyAndShowsTheAnswer()
    {
        await using var host = await ShopHost.OpenAsync();
        await WalkAsync(host, upTo: CleanOutStepKind.SafetySheets);
        var open = await host.GetAsync(Address);
        Assert.DoesNotContain("cleaner-shortReason", open.Html, StringComparison.Ordinal);

        var asked = await host.PostAsync($"{Address}/steps/cleaner", new() { ["cleanerLitres"] = "3.5", ["hours"] = "12", ["round"] = "0" }, from: Address);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, asked.Status);
        Assert.Contains("The cleaner was to go round for 12 h 30 min; counted from the step before, and by the hours typed, it was 0 h 0 min at most.", asked.Text, StringComparison.Ordinal);
        Assert.Contains("id=\"cleaner-shortReason-fault\"", asked.Html, StringComparison.Ordinal);
        Assert.Equal("3.5", asked.Hidden("cleanerLitres"));
        var noted = await host.PostAsync($"{Address}/steps/cleaner", new() { ["cleanerLitres"] = "3.5", ["hours"] = "12", ["shortReason"] = "In since 18:00 yesterday", ["round"] = "0" }, from: Address);
        Assert.Equal(HttpStatusCode.SeeOther, noted.Status);
        Assert.Contains("noted before its hours were over: In since 18:00 yesterday", (await host.GetAsync(Address)).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Post_LockOutNotTicked_StaysAtIt()
    {
        await using var host = await ShopHost.OpenAsync();
        await WalkAsync(host, upTo: CleanOutStepKind.Carrier);

        var page = await host.PostAsync($"{Address}/steps/lockout", new() { ["lockedOut"] = "1", ["note"] = "Lock 7", ["round"] = "0" }, from: Address);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains("Tick this once it is true.", page.Text, StringComparison.Ordinal);
        Assert.Contains("value=\"Lock 7\"", Regex.Match(page.Html, "<input[^>]*id=\"lockout-note\"[^>]*>", RegexOptions.None, TimeSpan.FromSeconds(1)).Value, StringComparison.Ordinal);
        Assert.Contains("checked", Input(page, "lockedOut"), StringComparison.Ordinal);
        Assert.DoesNotContain("checked", Input(page, "nobodyInside"), StringComparison.Ordinal);
        var skipped = await host.PostAsync($"{Address}/steps/drain", new() { ["wasteLitres1"] = "100", ["wasteCode1"] = "12 01 09*", ["round"] = "0" }, from: Address);
        Assert.Contains("Another step comes first: Lock out.", skipped.Text, StringComparison.Ordinal);
        var leftOut = await host.PostAsync($"{Address}/steps/lockout", new() { ["leaveOut"] = "1", ["reason"] = "Quick job", ["round"] = "0" }, from: Address);
        Assert.Contains("This step cannot be left out.", leftOut.Text, StringComparison.Ordinal);
    }

    // The shift changes: another person sees whose locks are on, and goes on.
    [Fact]
    public async Task Get_LockedOutBySomebodyElse_SaysWhose()
    {
        await using var host = await ShopHost.OpenAsync(async shop =>
        {
            var person = Some.Operator.PersonId!.Value;
            (await shop.Get<MakeAccountHandler>().HandleAsync(new MakeAccount(person, "op1", "Op One", "ten signs and more", [Roles.Operator], "light"), Some.Supervisor, default)).Done();
            var id = Some.Id();
            foreach (var (kind, note) in new (CleanOutStepKind, CleanOutNote)[]
            {
                (CleanOutStepKind.Plan, new(Choice: new(150, 10, 0, 0, 0, 0))),
                (CleanOutStepKind.SafetySheets, new(Confirmed: CleanOutConfirmations.Of(CleanOutStepKind.SafetySheets))),
                (CleanOutStepKind.Carrier, new(Confirmed: CleanOutConfirmations.Of(CleanOutStepKind.Carrier), Text: "Container 4")),
                (CleanOutStepKind.LockOut, new(Confirmed: CleanOutConfirmations.Of(CleanOutStepKind.LockOut))),
            })
            {
                (await shop.Get<NoteCleanOutStepHandler>().HandleAsync(new(id, "S-07", kind, 0, note), Some.Operator, false, default)).Done();
            }
        });

        var page = await host.GetAsync(Address);

        Assert.Contains("Locked out by Op One", page.Text, StringComparison.Ordinal);
        Assert.Contains("Put your own lock on before you reach in.", page.Text, StringComparison.Ordinal);
        Assert.Contains("Done: Drain", page.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Post_NotedMeanwhile_KeepsWhatWasTypedAndCanPutItRight()
    {
        await using var host = await ShopHost.OpenAsync();
        await WalkAsync(host, upTo: CleanOutStepKind.LockOut);
        var open = await host.GetAsync(Address);
        Assert.Equal(HttpStatusCode.SeeOther, (await host.SendAsync($"{Address}/steps/drain", Fields(open, ("wasteLitres1", "141"), ("wasteCode1", "12 01 09*"), ("round", "0")))).Status);

        var late = await host.SendAsync($"{Address}/steps/drain", Fields(open, ("wasteLitres1", "114"), ("wasteCode1", "12 01 09*"), ("round", "0")));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, late.Status);
        Assert.Contains("Somebody else noted this step meanwhile.", late.Text, StringComparison.Ordinal);
        Assert.Contains("value=\"114\"", late.Html, StringComparison.Ordinal);
        Assert.Contains("141.0 L under 12 01 09*", late.Text, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.SeeOther, (await host.SendAsync($"{Address}/steps/drain", Fields(open, ("wasteLitres1", "114"), ("wasteCode1", "12 01 09*"), ("round", "1")))).Status);
        Assert.Contains("114.0 L under 12 01 09*", (await host.GetAsync(Address)).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Post_UnlikelyFirstReading_IsAskedAboutOnceAndJudgedAsTheNewCharge()
    {
        await using var host = await ShopHost.OpenAsync(shop => shop.StoreAsync(Some.Reading(brix: 4.0m, ph: 8.6m, levelMm: 250)));
        await WalkAsync(host);
        var page = await host.GetAsync(Address);

        // Far from the old charge's last value, and no question: it is another fluid.
        var asked = await FinishAsync(host, page, "8.0", "11.4", "320");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, asked.Status);
        Assert.Equal(1, Regex.Count(asked.Html, "name=\"confirm\" value", RegexOptions.None, TimeSpan.FromSeconds(1)));
        Assert.Equal("11.4", asked.Hidden("value-ph"));

        var kept = await FinishAsync(host, page, "8.0", "11.4", "320", ("confirm", "ph=11.4;"));
        Assert.Equal(HttpStatusCode.SeeOther, kept.Status);
        Assert.Equal(2, await host.Shop.CountAsync<Core.Readings.Reading>());
    }

    [Fact]
    public async Task Post_LotBarredSinceTheRefill_LeadsBackToTheRefill()
    {
        await using var host = await ShopHost.OpenAsync();
        await WalkAsync(host);
        (await host.Shop.Get<QuarantineLotHandler>().HandleAsync(new(host.Shop.LotId, "Split drum"), Some.Supervisor, TestContext.Current.CancellationToken)).Done();

        var page = await FinishAsync(host, await host.GetAsync(Address), "8.0", "9.0", "320");

        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains("Put the refill right, then finish.", page.Text, StringComparison.Ordinal);
        Assert.Contains("id=\"refill-lot-fault\"", page.Html, StringComparison.Ordinal);
        Assert.Equal("9.0", page.Hidden("value-ph"));
    }

    [Fact]
    public async Task Post_BreakOff_AsksWhyAndBeginsAnew()
    {
        await using var host = await ShopHost.OpenAsync();
        await WalkAsync(host, upTo: CleanOutStepKind.Carrier);

        Assert.Contains("id=\"break-off-fault\"", (await host.PostAsync($"{Address}/break-off", new() { ["reason"] = "" }, from: Address)).Html, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.SeeOther, (await host.PostAsync($"{Address}/break-off", new() { ["reason"] = "Carrier did not come" }, from: Address)).Status);

        Assert.Contains("Begin with this plan", (await host.GetAsync(Address)).Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/drain/S-99", HttpStatusCode.NotFound)]
    [InlineData("/drain/S-07", HttpStatusCode.Conflict)]
    public async Task Get_UnknownOrEmptySump_SaysSo(string address, HttpStatusCode status)
    {
        await using var host = await ShopHost.OpenAsync(shop => shop.DrainAsync(Some.Start));

        Assert.Equal(status, (await host.GetAsync(address)).Status);
    }

    [Fact]
    public async Task Auditor_MayReadAndNotAct()
    {
        await using var host = await ShopHost.OpenAsync(role: Roles.Auditor);

        var page = await host.GetAsync(Address);

        Assert.Equal(HttpStatusCode.OK, page.Status);
        Assert.DoesNotContain("<form", page.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Round_DrainingDueOrBegun_LeadsToIt()
    {
        await using var host = await ShopHost.OpenAsync(shop => shop.StepAsync(Some.Step(TaskKind.DrainClean)));
        Assert.Contains("href=\"/drain/S-07\"", (await host.GetAsync("/round")).Html, StringComparison.Ordinal);

        await WalkAsync(host, upTo: CleanOutStepKind.Plan);

        Assert.Contains("begun, go on", (await host.GetAsync("/round")).Text, StringComparison.Ordinal);
    }

    private static Dictionary<string, string> Plan() => new()
    {
        ["contentLitres"] = "150",
        ["heelLitres"] = "10",
        ["cleanerPercent"] = "2",
        ["circulationHours"] = "12.5",
        ["rinses"] = "2",
        ["rinseLitres"] = "30",
        ["round"] = "0",
    };

    private static async Task WalkAsync(ShopHost host, CleanOutStepKind upTo = CleanOutStepKind.Refill)
    {
        foreach (var kind in Enum.GetValues<CleanOutStepKind>().Where(k => k <= upTo))
        {
            var fields = kind switch
            {
                CleanOutStepKind.Plan => Plan(),
                CleanOutStepKind.Cleaner => new() { ["cleanerLitres"] = "3", ["hours"] = "12", ["shortReason"] = "In since yesterday evening" },
                CleanOutStepKind.Drain => new() { ["wasteLitres1"] = "141", ["wasteCode1"] = "12 01 09*", ["sludgeMm"] = "35" },
                CleanOutStepKind.Wipe => new() { ["wasteLitres1"] = "9", ["wasteCode1"] = "12 01 14*" },
                CleanOutStepKind.Rinse => new() { ["wasteLitres1"] = "60", ["wasteCode1"] = "12 01 09*" },
                CleanOutStepKind.Inspect => new() { ["seen"] = "All in order" },
                CleanOutStepKind.Refill => new() { ["concentrateLitres"] = "12.8", ["lot"] = host.Shop.LotId.ToString(), ["waterLitres"] = "147.2" },
                _ => CleanOutConfirmations.Of(kind).ToDictionary(c => c, _ => "1"),
            };
            fields.TryAdd("carrier", "Container 4");
            fields.TryAdd("round", "0");
            var answer = await host.PostAsync($"{Address}/steps/{kind.ToString().ToLowerInvariant()}", fields, from: Address);
            Assert.True(answer.Status == HttpStatusCode.SeeOther, $"{kind}: {answer.Text}");
            Assert.Equal($"{Address}#now", answer.Location);
        }
    }

    private static Task<ShopHost.Page> FinishAsync(ShopHost host, ShopHost.Page page, string brix, string ph, string level, params (string Name, string Value)[] also)
    {
        var form = page.Html[page.Html.IndexOf("id=\"entry\"", StringComparison.Ordinal)..];
        var fields = Fields(page with { Html = form }, [("cleanOut", page.Hidden("cleanOut")), ("value-concentration", brix), ("value-ph", ph), ("value-level", level), .. also]);
        return host.SendAsync($"{Address}/finish", fields);
    }

    private static Dictionary<string, string> Fields(ShopHost.Page page, params (string Name, string Value)[] typed)
    {
        var fields = typed.ToDictionary(t => t.Name, t => t.Value);
        fields["__RequestVerificationToken"] = page.Hidden("__RequestVerificationToken");
        fields["id"] = page.Hidden("id");
        return fields;
    }

    private static string Input(ShopHost.Page page, string name) =>
        Regex.Match(page.Html, $"<input[^>]*name=\"{name}\"[^>]*>", RegexOptions.None, TimeSpan.FromSeconds(1)).Value;
}
