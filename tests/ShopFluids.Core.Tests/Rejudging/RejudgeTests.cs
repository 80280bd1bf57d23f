using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Record.Replay;
using ShopFluids.Core.Rejudging;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Tuning;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Limit;
using ShopFluids.Rules.RunDry;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Rejudging;

/// <summary>Judging the latest readings again after a change of limits or rules: an act of its own, which alters nothing that was shown.</summary>
public sealed class RejudgeTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task HandleAsync_NarrowerLimits_RaisesTheFlagWithItsWorkAndLeavesTheReadingAsItWas(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var told = await shop.StoreAsync(Some.Reading());
        Assert.Empty(told.Raised);
        await LimitAsync(shop, 9);

        var done = await DoneAsync(shop);

        var flag = await shop.ReadAsync(db => Task.FromResult(db.Flags.Single()));
        Assert.Equal([flag.Id], Assert.Single(done.Sumps).Raised);
        Assert.Equal((LimitRule.Code, ParameterCodes.Concentration, told.ReadingId, done.Id), (flag.Rule, flag.Parameter, flag.ReadingId, flag.RejudgementId));
        Assert.Equal((await shop.SetupAsync()).LimitSets.OrderBy(l => l.Number).Last(l => l.FluidId == shop.FluidId).Id, flag.LimitSetId);
        Assert.Contains(await shop.ReadAsync(db => Task.FromResult(db.CareTasks.ToList())), t => t is { Kind: TaskKind.Adjust, State: TaskState.Open });
        var reading = await shop.ReadAsync(db => Task.FromResult(db.Readings.Single()));
        Assert.Equal((Verdict.InRange, 0, 1L), (reading.Verdict, reading.Outcome?.Raised.Count, reading.Version));
        await AssertSoundAsync(shop);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_WiderLimits_EndsTheFlagAndItsWorkWithTheReason(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 6.0m));
        await LimitAsync(shop, 5);

        var done = await DoneAsync(shop);

        var flag = await shop.ReadAsync(db => Task.FromResult(db.Flags.Single()));
        Assert.Equal([flag.Id], Assert.Single(done.Sumps).Ended);
        Assert.Equal((FlagEnd.Rejudged, "Limits changed", Some.Supervisor.PersonId, shop.Now), (flag.EndedHow, flag.EndReason, flag.EndedByPersonId, flag.EndedAtUtc));
        Assert.DoesNotContain(await shop.ReadAsync(db => Task.FromResult(db.CareTasks.ToList())), t => t.State == TaskState.Open);
        await AssertSoundAsync(shop);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_RuleSwitchedOff_EndsItsFlagAtOnce(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await TuneAsync(shop, null, 80, 0);
        await shop.StoreAsync(Some.Reading(levelMm: 200));
        await TuneAsync(shop, false, 80, 1);

        var done = await DoneAsync(shop);

        var flag = await shop.ReadAsync(db => Task.FromResult(db.Flags.Single(f => f.Rule == RunDryRule.RuleCode)));
        Assert.Equal((FlagEnd.Rejudged, flag.Id), (flag.EndedHow, Assert.Single(Assert.Single(done.Sumps).Ended)));
        await AssertSoundAsync(shop);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_NothingChanged_TouchesNoFlagAndCompletesNoTest(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test));
        await shop.StoreAsync(Some.Reading(ph: 8.2m));
        shop.Clock.Advance(TimeSpan.FromDays(8));
        await shop.Get<NoticeOverdueHandler>().HandleAsync(Stop);
        var before = await StateAsync(shop);

        var sump = Assert.Single((await DoneAsync(shop)).Sumps);

        Assert.Empty(sump.Raised);
        Assert.Empty(sump.Ended);
        Assert.Equal(before, await StateAsync(shop));
        await AssertSoundAsync(shop);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_ValueOfAnEarlierReading_IsJudgedToo(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var first = await shop.StoreAsync(Some.Reading());
        shop.Clock.Advance(TimeSpan.FromDays(1));
        await shop.StoreAsync(Some.Reading(brix: null, takenAt: shop.Now));
        await LimitAsync(shop, 9);

        await DoneAsync(shop);

        Assert.Equal(first.ReadingId, (await shop.ReadAsync(db => Task.FromResult(db.Flags.Single()))).ReadingId);
        await AssertSoundAsync(shop);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_FlagClosedBySupervisorOnThisValue_StaysClosed(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 6.0m));
        var flag = await shop.ReadAsync(db => Task.FromResult(db.Flags.Single()));
        (await shop.Get<CloseFlagHandler>().HandleAsync(new CloseFlag(flag.Id, "Known"), Some.Supervisor, Stop)).Done();

        var sump = Assert.Single((await DoneAsync(shop)).Sumps);

        Assert.Empty(sump.Raised);
        Assert.Equal(1, await shop.CountAsync<Flag>());
        await AssertSoundAsync(shop);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_ReadingsGoOnAfterIt_ReplayAndCorrectionHold(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var wrong = await shop.StoreAsync(Some.Reading());
        await LimitAsync(shop, 9);
        await DoneAsync(shop);
        await shop.StoreAsync(Some.Reading(brix: null, supersedes: wrong.ReadingId, reason: "Not this sump"));
        Assert.Equal(FlagEnd.Superseded, (await shop.ReadAsync(db => Task.FromResult(db.Flags.Single()))).EndedHow);
        shop.Clock.Advance(TimeSpan.FromHours(1));
        await shop.StoreAsync(Some.Reading(takenAt: shop.Now));
        await TuneAsync(shop, null, 80, 0);
        await DoneAsync(shop);
        shop.Clock.Advance(TimeSpan.FromHours(1));
        await shop.StoreAsync(Some.Reading(brix: 9.5m, levelMm: 330, takenAt: shop.Now));

        await AssertSoundAsync(shop);
        Assert.Equal(2, await shop.CountAsync<Rejudgement>());
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_PressedTwice_IsDoneOnceAndStandsInTheRecord(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading());
        await LimitAsync(shop, 9);
        var command = new Rejudge(Some.Id(), Some.SumpTag, "Limits changed");

        var first = (await shop.Get<RejudgeHandler>().HandleAsync(command, Some.Supervisor, Stop)).Done();
        var second = (await shop.Get<RejudgeHandler>().HandleAsync(command, Some.Supervisor, Stop)).Done();

        Assert.Equal(Assert.Single(first.Sumps).Raised, Assert.Single(second.Sumps).Raised);
        Assert.Equal((1, 1), (await shop.CountAsync<Rejudgement>(), await shop.CountAsync<Flag>()));
        Assert.IsType<OtherContentForId>((await shop.Get<RejudgeHandler>().HandleAsync(command with { Reason = "Other" }, Some.Supervisor, Stop)).Error);
        var entry = await shop.ReadAsync(db => Task.FromResult(db.RecordEntries.OrderByDescending(e => e.Sequence).First()));
        Assert.Equal((ActCodes.Rejudged, Some.SumpTag, Some.Supervisor.PersonId), (entry.Code, entry.Subject, entry.ActorId));
        Assert.Contains("Limits changed", entry.Changes, StringComparison.Ordinal);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_NoReasonUnknownOrEmptySump_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database, isFilled: false);
        var handler = shop.Get<RejudgeHandler>();

        Assert.Equal(("reason", FieldProblem.Missing), ((await handler.HandleAsync(new Rejudge(Some.Id(), null, " "), Some.Supervisor, Stop)).Field() is var f ? (f.Field, f.Problem) : default));
        Assert.IsType<SumpNotFound>((await handler.HandleAsync(new Rejudge(Some.Id(), "S-99", "Trial"), Some.Supervisor, Stop)).Error);
        Assert.IsType<NoOpenCharge>((await handler.HandleAsync(new Rejudge(Some.Id(), Some.SumpTag, "Trial"), Some.Supervisor, Stop)).Error);
        Assert.Equal(0, await shop.CountAsync<Rejudgement>());
    }

    private static async Task<RejudgeDone> DoneAsync(ShopFixture shop) =>
        (await shop.Get<RejudgeHandler>().HandleAsync(new Rejudge(Some.Id(), null, "Limits changed"), Some.Supervisor, Stop)).Done();

    /// <summary>Concentration is low under this from now on.</summary>
    private static async Task LimitAsync(ShopFixture shop, decimal warningLow)
    {
        shop.Clock.Advance(TimeSpan.FromMinutes(1));
        var band = new ParameterLimits(ParameterCodes.Concentration, LimitBasis.Value, null, warningLow, null, null, 12, null, EdgeIsBeyond: false, 0.2m);
        (await shop.Get<SetLimitsHandler>().HandleAsync(new SetLimits(Some.Id(), shop.FluidId, null, shop.Now, [band]), Some.Supervisor, Stop)).Done();
    }

    private static async Task TuneAsync(ShopFixture shop, bool? isOn, decimal litres, int seen)
    {
        var command = new SetRule(Some.Id(), RunDryRule.RuleCode, null, shop.SumpId, isOn, new Dictionary<string, decimal> { [RunDryRule.NeededLitres] = litres }, "Measured", seen);
        (await shop.Get<SetRuleHandler>().HandleAsync(command, Some.Supervisor, Stop)).Done();
    }

    private static Task<string> StateAsync(ShopFixture shop) => shop.ReadAsync(db => Task.FromResult(string.Join(
        ' ',
        db.Flags.OrderBy(f => f.Id).AsEnumerable().Select(f => $"{f.Rule}:{f.Parameter} {f.EndedHow}").Concat(db.CareTasks.OrderBy(t => t.Id).AsEnumerable().Select(t => $"{t.Kind} {t.Cause} {t.State}")))));

    private static async Task AssertSoundAsync(ShopFixture shop)
    {
        Assert.Empty((await shop.VerifyAsync()).Findings);
        Assert.Empty((await shop.Get<ReplayQuery>().RunAsync(Stop)).Differences);
    }
}
