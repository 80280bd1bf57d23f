using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Readings;
using ShopFluids.Rules;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Readings;

/// <summary>Invariants 2, 4 and 14: one transaction, idempotent by the sender's id.</summary>
public sealed class RecordReadingTests
{
    [Theory, EachDatabase]
    public async Task HandleAsync_InRange_StoresVerdictAndNothingFollows(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        var recorded = (await shop.RecordAsync(Some.Reading())).Done();

        Assert.True(recorded.IsNew);
        Assert.Equal(Verdict.InRange, recorded.Outcome.Verdict);
        Assert.Empty(recorded.Outcome.Raised);
        Assert.Empty(recorded.Outcome.Made);
        Assert.Equal(3, await shop.CountAsync<Measurement>());
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_ConcentrationUnderAction_RaisesFlagAndAdjustmentWithRecipe(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        var outcome = await shop.StoreAsync(Some.Reading(brix: 4.0m));

        var flag = Assert.Single(outcome.Raised);
        Assert.Equal(("limit", ParameterCodes.Concentration, Verdict.Action, Direction.Low), (flag.Rule, flag.Parameter, flag.Severity, flag.Direction));
        var task = Assert.Single(outcome.Made);
        Assert.Equal((TaskKind.Adjust, "limit:concentration"), (task.Kind, task.Cause));
        Assert.NotNull(outcome.Recipe);
        var stored = await shop.ReadAsync(db => db.CareTasks.SingleAsync(t => t.Id == task.Id));
        Assert.Equal(outcome.Recipe, stored.Recipe);
        Assert.Equal(flag.Id, await shop.ReadAsync(db => db.Flags.Select(f => f.Id).SingleAsync()));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory]
    [EachDatabase(6.9, Verdict.Warning)]
    [EachDatabase(7.0, Verdict.InRange)]
    [EachDatabase(9.0, Verdict.InRange)]
    [EachDatabase(9.1, Verdict.Warning)]
    [EachDatabase(5.0, Verdict.Warning)]
    [EachDatabase(4.9, Verdict.Action)]
    public async Task HandleAsync_AtTheLimits_ValueOnALimitIsInside(TestDatabase database, double brix, Verdict expected)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        Assert.Equal(expected, (await shop.StoreAsync(Some.Reading(brix: (decimal)brix, ph: null, levelMm: null))).Verdict);
    }

    // Invariant 2.
    [Theory, EachDatabase]
    public async Task HandleAsync_SameIdTwice_AnswersTheSameAndStoresOnce(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var command = Some.Reading(brix: 4.0m, ph: 8.4m);
        var first = (await shop.RecordAsync(command)).Done();
        var before = await shop.FootprintAsync();
        shop.Clock.Advance(TimeSpan.FromHours(2));

        var second = (await shop.RecordAsync(command)).Done();

        Assert.False(second.IsNew);
        Assert.Equal(Outcomes.Whole(first.Outcome), Outcomes.Whole(second.Outcome));
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_SameIdWrittenOtherwise_IsTheSame(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var command = Some.ReadingOf(Some.Typed(ParameterCodes.Ph, 8.9m), Some.Typed(ParameterCodes.Level, 300m));
        await shop.StoreAsync(command);

        var again = await shop.RecordAsync(command with { SumpTag = " s-07 ", Measurements = [Some.Typed(ParameterCodes.Level, 300.0m), Some.Typed(ParameterCodes.Ph, 8.90m)] });

        Assert.False(again.Done().IsNew);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_SameIdOtherContent_IsRefusedAndNothingStored(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var command = Some.Reading();
        await shop.StoreAsync(command);
        var before = await shop.FootprintAsync();

        Assert.Equal(new OtherContentForId(command.Id), (await shop.RecordAsync(command with { Note = "other" })).Refused());
        Assert.IsType<OtherContentForId>((await shop.RecordAsync(Some.Reading(ph: 9.1m, id: command.Id))).Refused());
        Assert.IsType<OtherContentForId>((await shop.RecordAsync(Some.Reading(takenAt: Some.Start.AddMinutes(-1), id: command.Id))).Refused());
        Assert.Equal(before, await shop.FootprintAsync());
    }

    // Invariant 2, when posts race: on two instances of the program at once.
    [Theory, EachDatabase]
    public async Task HandleAsync_FiftyParallelPostsOfOneId_StoreOneReadingAndOneSetOfTasks(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var other = shop.Another();
        var command = Some.Reading(brix: 4.0m, ph: 8.4m, levelMm: 120);

        var answers = await Task.WhenAll(Enumerable.Range(0, 50).Select(n => Task.Run(() => (n % 2 == 0 ? shop : other).RecordAsync(command))));

        var recorded = answers.Select(a => a.Done()).ToList();
        Assert.Equal(1, recorded.Count(r => r.IsNew));
        Assert.Single(recorded.Select(r => Outcomes.Whole(r.Outcome)).Distinct());
        var outcome = recorded[0].Outcome;
        Assert.Equal(1, await shop.CountAsync<Reading>());
        Assert.Equal(outcome.Raised.Count, await shop.CountAsync<Flag>());
        Assert.Equal(outcome.Made.Count, await shop.CountAsync<CareTask>());
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_ManyDifferentReadingsAtOnce_AllAreStoredAndTheRecordHolds(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var other = shop.Another();
        var commands = Enumerable.Range(0, 40).Select(n => Some.Reading(brix: 4 + (n % 8), ph: 9.0m, takenAt: Some.Start.AddMinutes(-n))).ToList();

        var answers = await Task.WhenAll(commands.Select((c, n) => Task.Run(() => (n % 2 == 0 ? shop : other).RecordAsync(c))));

        Assert.All(answers, a => Assert.True(a.Done().IsNew));
        Assert.Equal(40, await shop.CountAsync<Reading>());
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // Invariant 4.
    [Theory, EachDatabase]
    public async Task HandleAsync_Measurement_KeepsWhatWasReadAndWhatWasUsed(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.InstrumentAsync(Some.Refractometer("R-2", compensates: false));

        await shop.StoreAsync(Some.ReadingOf(Some.Typed(ParameterCodes.Concentration, 8.2m, "brix", temperature: 24m, instrument: "r-2")));

        var stored = await shop.ReadAsync(db => db.Measurements.SingleAsync());
        var instrument = await shop.ReadAsync(db => db.Instruments.SingleAsync());
        var limits = await shop.ReadAsync(db => db.LimitSets.SingleAsync(l => l.FluidId == shop.FluidId));
        Assert.Equal((8.2m, "Brix", "refractometer", (decimal?)24m), (stored.RawValue, stored.RawUnit, stored.Method, stored.TemperatureCelsius));
        Assert.Equal((1.0m, 0m, instrument.Id, limits.Id), (stored.Factor, stored.ZeroBrix, stored.InstrumentId, stored.LimitSetId));
        Assert.True(stored.Uncertainty > 0);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_LateEntry_LeavesTheLatestAndRaisesNothing(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading());

        var late = await shop.StoreAsync(Some.Reading(brix: 3.0m, ph: 8.0m, levelMm: null, takenAt: Some.Start.AddDays(-1)));

        Assert.Equal(Verdict.Action, late.Verdict);
        Assert.Empty(late.Raised);
        Assert.Empty(late.Made);
        Assert.Null(late.Recipe);
        var standing = await shop.ReadAsync(db => db.Standings.SingleAsync());
        Assert.Equal((Verdict.InRange, (DateTime?)Some.Start, 150.0), (standing.Verdict, standing.LastReadAtUtc, standing.VolumeLitres));
        Assert.Equal(8.0m, standing.Facts!.Latest[ParameterCodes.Concentration].Value);
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_SumpEmpty_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database, isFilled: false);
        var before = await shop.FootprintAsync();

        Assert.Equal(new NoOpenCharge("S-07"), (await shop.RecordAsync(Some.Reading())).Refused());
        Assert.Equal(new SumpNotFound("S-99"), (await shop.RecordAsync(Some.Reading(sump: "S-99"))).Refused());
        Assert.Equal(before, await shop.FootprintAsync());
    }

    // Invariant 11: unlikely values are stored with the confirmation.
    [Theory]
    [EachDatabase(11.1, true)]
    [EachDatabase(11.0, false)]
    [EachDatabase(0.9, true)]
    public async Task HandleAsync_UnlikelyValue_IsToldAndStored(TestDatabase database, double brix, bool isUnlikely)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 8.0m, ph: null, levelMm: null));
        shop.Clock.Advance(TimeSpan.FromHours(1));
        var typed = Some.Typed(ParameterCodes.Concentration, (decimal)brix) with { IsConfirmed = isUnlikely };

        var outcome = await shop.StoreAsync(Some.ReadingOf(typed) with { TakenAtUtc = shop.Now });

        var measured = Assert.Single(outcome.Measurements);
        Assert.Equal((isUnlikely, 8.0m), (measured.IsUnlikely, measured.Previous));
        Assert.Equal(isUnlikely, await shop.ReadAsync(db => db.Measurements.Where(m => m.ReadingId == outcome.ReadingId).Select(m => m.IsConfirmed).SingleAsync()));
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_TwoMethodsInOneReading_TitrationDecides(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        await shop.StoreAsync(Some.ReadingOf(
            Some.Typed(ParameterCodes.Concentration, 9.5m, "Brix", "refractometer"),
            Some.Typed(ParameterCodes.Concentration, 16m, "mL", "titration")));

        var standing = await shop.ReadAsync(db => db.Standings.SingleAsync());
        Assert.Equal(8.0m, standing.Facts!.Latest[ParameterCodes.Concentration].Value);
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // The task that a finding asks for stays one, and its recipe follows the latest reading (invariant 7).
    [Theory, EachDatabase]
    public async Task HandleAsync_StillLow_KeepsOneAdjustmentWithTheLatestRecipe(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 4.0m));
        shop.Clock.Advance(TimeSpan.FromHours(1));

        var second = await shop.StoreAsync(Some.Reading(brix: 4.5m, levelMm: 290, takenAt: shop.Now));

        var task = await shop.ReadAsync(db => db.CareTasks.SingleAsync(t => t.Kind == TaskKind.Adjust));
        Assert.Equal(second.Recipe, task.Recipe);
        Assert.Equal(1, await shop.CountAsync<Flag>());
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }
}
