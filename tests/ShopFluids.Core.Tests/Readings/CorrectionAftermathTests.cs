using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Readings;
using ShopFluids.Rules;
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

        Assert.Equal(ParameterCodes.Concentration, Assert.Single(third.Raised).Parameter);
        Assert.Equal(1, await shop.ReadAsync(db => db.Flags.CountAsync(f => f.EndedAtUtc == null)));
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
