using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record.Replay;
using ShopFluids.Rules;
using ShopFluids.Rules.MassBalance;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Readings;

/// <summary>Invariant 9: what a wrong reading ended holds again once it is taken back.</summary>
public sealed class CorrectionAftermathTests
{
    // 4 % is low; 8 % was another sump's; the correction measures the pH alone: the sump stands at 4 % again.
    [Theory, EachDatabase]
    public async Task HandleAsync_CorrectionLeavesOutWhatEndedAFlag_RaisesItAgain(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 4.0m, takenAt: Some.Start.AddHours(-2)));
        var wrong = Some.Reading(brix: 8.0m, takenAt: Some.Start.AddHours(-1));
        Assert.Single((await shop.StoreAsync(wrong)).Cleared);

        var correction = Some.Reading(brix: null, levelMm: null, takenAt: wrong.TakenAtUtc, supersedes: wrong.Id, reason: "Wrong sump");
        var preview = (await shop.Get<PreviewReadingQuery>().RunAsync(correction, TestContext.Current.CancellationToken)).Done();

        var right = await shop.StoreAsync(correction);

        Assert.Equal(Outcomes.ModuloIds(right), Outcomes.ModuloIds(preview));
        var raised = Assert.Single(right.Raised);
        Assert.Equal((ParameterCodes.Concentration, Verdict.Action, Direction.Low, 4.0m), (raised.Parameter, raised.Severity, raised.Direction, raised.Numbers["value"]));
        Assert.Equal((TaskKind.Adjust, "limit:concentration"), (Assert.Single(right.Made).Kind, right.Made[0].Cause));
        Assert.Equal(1, await shop.ReadAsync(db => db.Flags.CountAsync(f => f.EndedAtUtc == null)));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_ThatCorrectionIsCorrectedAgain_TheFlagIsStillThere(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 4.0m, takenAt: Some.Start.AddHours(-2)));
        var wrong = Some.Reading(brix: 8.0m, takenAt: Some.Start.AddHours(-1));
        await shop.StoreAsync(wrong);
        var second = Some.Reading(brix: null, levelMm: null, takenAt: wrong.TakenAtUtc, supersedes: wrong.Id, reason: "Wrong sump");
        await shop.StoreAsync(second);

        var third = await shop.StoreAsync(Some.Reading(brix: null, ph: 9.1m, levelMm: null, takenAt: wrong.TakenAtUtc, supersedes: second.Id, reason: "Slip"));

        Assert.Empty(third.Raised);
        Assert.Equal(ParameterCodes.Concentration, await shop.ReadAsync(db => db.Flags.Where(f => f.EndedAtUtc == null).Select(f => f.Parameter).SingleAsync()));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // A wrong action hid that a warning was due.
    [Theory, EachDatabase]
    public async Task HandleAsync_WrongReadingReplacedAWarning_TheWarningIsRaisedAgain(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 6.0m, takenAt: Some.Start.AddHours(-2)));
        var wrong = Some.Reading(brix: 4.0m, takenAt: Some.Start.AddHours(-1));
        await shop.StoreAsync(wrong);

        var right = await shop.StoreAsync(Some.Reading(brix: null, levelMm: null, takenAt: wrong.TakenAtUtc, supersedes: wrong.Id, reason: "Wrong sump"));

        Assert.Equal(Verdict.Warning, Assert.Single(right.Raised).Severity);
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_LatestValueIsInRange_RaisesNothing(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 8.0m, takenAt: Some.Start.AddHours(-2)));
        var wrong = Some.Reading(brix: 4.0m, takenAt: Some.Start.AddHours(-1));
        await shop.StoreAsync(wrong);

        Assert.Empty((await shop.StoreAsync(Some.Reading(brix: null, levelMm: null, takenAt: wrong.TakenAtUtc, supersedes: wrong.Id, reason: "Wrong sump"))).Raised);
        Assert.Equal(0, await shop.ReadAsync(db => db.Flags.CountAsync(f => f.EndedAtUtc == null)));
    }

    // 120 L at 200 mm; the gain that nobody wrote down was a slip of the tape, on which a later reading stands too.
    [Theory, EachDatabase]
    public async Task HandleAsync_LevelOfABalanceFlagWasWrong_EndsTheFlagAlthoughItIsAboutTheSump(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(levelMm: 200, takenAt: Some.Start.AddHours(-9)));
        await shop.StoreAsync(Some.Reading(levelMm: 200, takenAt: Some.Start.AddHours(-8)));
        var wrong = Some.Reading(levelMm: 300, takenAt: Some.Start.AddHours(-5));
        var flag = Assert.Single((await shop.StoreAsync(wrong)).Raised, f => f.Rule == BalanceRule.RuleCode);

        // A pH alone tells nothing of the balance: the flag stands, until the level is set right.
        await shop.StoreAsync(Some.Reading(brix: null, levelMm: null, takenAt: Some.Start.AddHours(-4)));
        Assert.True(await shop.ReadAsync(db => db.Flags.AnyAsync(f => f.Id == flag.Id && f.EndedAtUtc == null)));
        var right = await shop.StoreAsync(Some.Reading(levelMm: 200, takenAt: wrong.TakenAtUtc, supersedes: wrong.Id, reason: "Tape misread"));

        Assert.Contains(right.Cleared, f => f.Id == flag.Id);
        Assert.Equal(FlagEnd.Superseded, await shop.ReadAsync(db => db.Flags.Where(f => f.Id == flag.Id).Select(f => f.EndedHow).SingleAsync()));
        Assert.False(await shop.ReadAsync(db => db.CareTasks.AnyAsync(t => t.Cause == "balance:" && t.State == TaskState.Open)));
        Assert.Empty((await shop.Get<ReplayQuery>().RunAsync(TestContext.Current.CancellationToken)).Differences);
    }

    // The flag about the sump that an earlier reading raised does not go with a correction that leaves the level as it was.
    [Theory, EachDatabase]
    public async Task HandleAsync_OnlyThePhOfABalanceFlagsReadingWasWrong_KeepsTheFlag(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(levelMm: 200, takenAt: Some.Start.AddHours(-9)));
        await shop.StoreAsync(Some.Reading(levelMm: 200, takenAt: Some.Start.AddHours(-8)));
        var wrong = Some.Reading(ph: 9.2m, levelMm: 300, takenAt: Some.Start.AddHours(-5));
        var flag = Assert.Single((await shop.StoreAsync(wrong)).Raised, f => f.Rule == BalanceRule.RuleCode);
        await shop.StoreAsync(Some.Reading(brix: null, levelMm: null, takenAt: Some.Start.AddHours(-4)));

        var right = await shop.StoreAsync(Some.Reading(ph: 9.1m, levelMm: 300, takenAt: wrong.TakenAtUtc, supersedes: wrong.Id, reason: "Slip"));

        Assert.DoesNotContain(right.Cleared, f => f.Rule == BalanceRule.RuleCode);
        Assert.True(await shop.ReadAsync(db => db.Flags.AnyAsync(f => f.Id == flag.Id && f.EndedAtUtc == null)));
        Assert.True(await shop.ReadAsync(db => db.CareTasks.AnyAsync(t => t.Cause == "balance:" && t.State == TaskState.Open)));
        Assert.Empty((await shop.Get<ReplayQuery>().RunAsync(TestContext.Current.CancellationToken)).Differences);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_SupervisorHadClosedTheFlag_StaysClosed(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var low = await shop.StoreAsync(Some.Reading(brix: 4.0m, takenAt: Some.Start.AddHours(-2)));
        (await shop.Get<CloseFlagHandler>().HandleAsync(new CloseFlag(Assert.Single(low.Raised).Id, "Known"), Some.Supervisor, TestContext.Current.CancellationToken)).Done();
        var wrong = Some.Reading(brix: 8.0m, takenAt: Some.Start.AddHours(-1));
        await shop.StoreAsync(wrong);

        Assert.Empty((await shop.StoreAsync(Some.Reading(brix: null, levelMm: null, takenAt: wrong.TakenAtUtc, supersedes: wrong.Id, reason: "Wrong sump"))).Raised);
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }
}
