using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Readings;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Scheduling;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Charges;

/// <summary>Filling and draining: invariants 1 and 9.</summary>
public sealed class ChargeTests
{
    // Invariant 1, by the handler.
    [Theory, EachDatabase]
    public async Task Fill_SumpNotEmpty_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var before = await shop.FootprintAsync();

        Assert.Equal(new ChargeStillOpen("S-07"), (await shop.FillAsync(Some.Fill(Some.Id(), shop.FluidId, shop.LotId))).Refused());
        Assert.Equal(before, await shop.FootprintAsync());
    }

    // Invariant 1, by the database itself.
    [Theory, EachDatabase]
    public async Task Database_SecondOpenCharge_IsRefusedByItsIndex(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var write = await shop.Get<ShopDatabase>().WriteAsync(TestContext.Current.CancellationToken);
        write.Database.Add(new Charge(Some.Id(), shop.SumpId, shop.FluidId, 2, Some.Start, 150));

        await Assert.ThrowsAsync<DbUpdateException>(() => write.FlushAsync(TestContext.Current.CancellationToken));
    }

    [Theory, EachDatabase]
    public async Task Fill_TwoAtOnce_OneIsDone(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database, isFilled: false);
        await using var other = shop.Another();

        var answers = await Task.WhenAll(Enumerable.Range(0, 8).Select(n => Task.Run(() => (n % 2 == 0 ? shop : other).FillAsync(Some.Fill(Some.Id(), shop.FluidId, shop.LotId)))));

        Assert.Equal(1, answers.Count(a => a.Value is not null));
        Assert.All(answers.Where(a => a.Value is null), a => Assert.IsType<ChargeStillOpen>(a.Error));
        Assert.Equal(188, await shop.ReadAsync(db => db.FluidLots.Select(l => l.RemainingLitres).SingleAsync()));
    }

    [Theory, EachDatabase]
    public async Task Fill_SameIdTwice_FillsOnce(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var before = await shop.FootprintAsync();

        Assert.Equal(new FilledSump(shop.ChargeId, 1), (await shop.FillAsync(Some.Fill(shop.ChargeId, shop.FluidId, shop.LotId))).Done());
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory]
    [EachDatabase(188.0, 12.0, true)]
    [EachDatabase(188.1, 12.0, false)]
    [EachDatabase(0.0, 0.0, false)]
    [EachDatabase(-1.0, 12.0, false)]
    public async Task Fill_AtTheBrim_IsTheMost(TestDatabase database, double water, double concentrate, bool isAccepted)
    {
        await using var shop = await ShopFixture.OpenAsync(database, isFilled: false);

        var answer = await shop.FillAsync(Some.Fill(Some.Id(), shop.FluidId, shop.LotId, water: (decimal)water, concentrate: (decimal)concentrate));

        Assert.Equal(isAccepted, answer.Value is not null);
        Assert.Equal(isAccepted ? 1 : 0, await shop.CountAsync<Charge>());
    }

    [Theory, EachDatabase]
    public async Task Fill_AfterDrain_NumbersOnAndPlansTheSteps(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Skim));
        (await shop.DrainAsync(Some.Start)).Done();

        var next = Some.Id();
        Assert.Equal(new FieldError("filledAt", FieldProblem.BeforeTheDrain, EarliestUtc: Some.Start), (await shop.FillAsync(Some.Fill(next, shop.FluidId, shop.LotId, at: Some.Start.AddMinutes(-1)))).Field());
        Assert.Equal(new FieldError("filledAt", FieldProblem.InTheFuture), (await shop.FillAsync(Some.Fill(next, shop.FluidId, shop.LotId, at: Some.Start.AddMinutes(6)))).Field());
        Assert.Equal(new FilledSump(next, 2), (await shop.FillAsync(Some.Fill(next, shop.FluidId, shop.LotId, at: Some.Start))).Done());

        var standing = await shop.ReadAsync(db => db.Standings.SingleAsync());
        Assert.Equal((next, 150.0), (standing.ChargeId.GetValueOrDefault(), standing.VolumeLitres));
        Assert.Equal(1, await shop.ReadAsync(db => db.CareTasks.CountAsync(t => t.State == TaskState.Open)));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // Invariant 9: the charge's end ends its flags, and the work that only they asked for.
    [Theory, EachDatabase]
    public async Task Drain_OpenFlags_EndWithTheCharge(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 4.0m, ph: 8.1m));

        (await shop.DrainAsync(Some.Start)).Done();

        Assert.All(await shop.ReadAsync(db => db.Flags.ToListAsync()), f => Assert.Equal(FlagEnd.ChargeEnded, f.EndedHow));
        Assert.DoesNotContain(await shop.ReadAsync(db => db.CareTasks.Select(t => t.State).ToListAsync()), s => s == TaskState.Open);
        var standing = await shop.ReadAsync(db => db.Standings.SingleAsync());
        Assert.Equal((null, Verdict.NotMeasured, 0, null), (standing.ChargeId, standing.Verdict, standing.OpenFlagCount, standing.VolumeLitres));
        Assert.IsType<NoOpenCharge>((await shop.RecordAsync(Some.Reading())).Refused());
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task Drain_SameIdTwice_DrainsOnce(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var removal = Some.Id();
        (await shop.DrainAsync(Some.Start, removalId: removal)).Done();
        (await shop.FillAsync(Some.Fill(Some.Id(), shop.FluidId, shop.LotId, at: Some.Start))).Done();
        var before = await shop.FootprintAsync();

        Assert.Equal(new DrainedSump(shop.ChargeId), (await shop.DrainAsync(Some.Start, removalId: removal)).Done());
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory, EachDatabase]
    public async Task Fill_SameIdOtherContent_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.SumpAsync(Some.Sump(Some.Id(), shop.AreaId, "S-08", "M-08"));
        var before = await shop.FootprintAsync();
        var same = Some.Fill(shop.ChargeId, shop.FluidId, shop.LotId);

        Assert.Equal(new OtherContentForId(shop.ChargeId), (await shop.FillAsync(same with { SumpTag = "S-08" })).Refused());
        Assert.Equal(new OtherContentForId(shop.ChargeId), (await shop.FillAsync(same with { WaterLitres = 137 })).Refused());
        Assert.Equal(new OtherContentForId(shop.ChargeId), (await shop.FillAsync(same with { LotId = Some.Id() })).Refused());
        Assert.Equal(new OtherContentForId(shop.ChargeId), (await shop.FillAsync(same with { FluidId = Some.Id() })).Refused());
        Assert.Equal(new OtherContentForId(shop.ChargeId), (await shop.FillAsync(same with { FilledAtUtc = Some.Start })).Refused());
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory, EachDatabase]
    public async Task Drain_SameIdOtherContent_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var swap = Some.Addition(shop.LotId, removed: 5);
        (await shop.AddAsync(swap)).Done();
        var removal = Some.Id();
        (await shop.DrainAsync(Some.Start, removalId: removal)).Done();
        (await shop.FillAsync(Some.Fill(Some.Id(), shop.FluidId, shop.LotId, at: Some.Start))).Done();
        var before = await shop.FootprintAsync();

        Assert.Equal(new OtherContentForId(removal), (await shop.DrainAsync(Some.Start, litres: 149, removalId: removal)).Refused());
        Assert.Equal(new OtherContentForId(removal), (await shop.DrainAsync(Some.Start.AddMinutes(1), removalId: removal)).Refused());
        Assert.Equal(new OtherContentForId(removal), (await shop.DrainAsync(Some.Start, removalId: removal, tag: "S-99")).Refused());
        Assert.Equal(new OtherContentForId(swap.Id), (await shop.DrainAsync(Some.Start, litres: 5, removalId: swap.Id)).Refused());
        Assert.Equal(before, await shop.FootprintAsync());
    }

    // Water needs no lot: one that was chosen all the same is not drawn from.
    [Theory, EachDatabase]
    public async Task Fill_WaterAlone_NamesNoLot(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database, isFilled: false);

        (await shop.FillAsync(Some.Fill(shop.ChargeId, shop.FluidId, Some.Id(), concentrate: 0))).Done();

        Assert.Null(await shop.ReadAsync(db => db.Additions.Select(a => a.LotId).SingleAsync()));
    }

    // Invariant 1: what was added or taken out falls inside its charge's life too.
    [Theory]
    [EachDatabase(0.0)]
    [EachDatabase(5.0)]
    public async Task Drain_BeforeTheLastAdditionOrRemoval_IsRefusedWithTheEarliestTime(TestDatabase database, double removed)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(takenAt: Some.Start.AddHours(-2)));
        (await shop.AddAsync(Some.Addition(shop.LotId, water: removed == 0 ? 10 : 0, concentrate: removed == 0 ? 1 : 0, removed: (decimal)removed, at: Some.Start.AddHours(-1)))).Done();

        Assert.Equal(new FieldError("drainedAt", FieldProblem.BeforeTheLastEntry, EarliestUtc: Some.Start.AddHours(-1)), (await shop.DrainAsync(Some.Start.AddMinutes(-61))).Field());
        Assert.Equal(new FieldError("drainedAt", FieldProblem.BeforeTheLastEntry, EarliestUtc: Some.Start.AddHours(-1)), (await shop.DrainAsync(Some.Start.AddDays(-20))).Field());
        (await shop.DrainAsync(Some.Start.AddHours(-1))).Done();
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // The plan's own draining is done by draining, whichever day it was for, and the next is reckoned from the drain.
    [Theory, EachDatabase]
    public async Task Drain_PlanAsksForDrainClean_IsDoneAndPlannedFromTheDrain(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var step = await shop.StepAsync(Some.Step(TaskKind.DrainClean, basis: IntervalBasis.FromLastDone, days: 90, anchor: new DateOnly(2026, 3, 20)));

        (await shop.DrainAsync(Some.Start.AddDays(-2))).Done();

        var tasks = await shop.ReadAsync(db => db.CareTasks.Where(t => t.StepId == step.Id).OrderBy(t => t.DueAtUtc).ToListAsync());
        Assert.Equal([TaskState.Done, TaskState.Open], tasks.Select(t => t.State));
        Assert.Equal(Some.Operator.PersonId, tasks[0].EndedByPersonId);
        Assert.Equal(new DateOnly(2026, 5, 29), CareSchedule.DueDayOf(tasks[1].DueAtUtc, (await shop.SetupAsync()).Calendar));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // The oil has gone with the fluid: nobody is late to skim what was just filled, and nobody has skimmed.
    [Theory, EachDatabase]
    public async Task Drain_SkimmingByThePlan_BeginsAnewWithoutBeingDone(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Skim, basis: IntervalBasis.FromLastDone, days: 14, anchor: new DateOnly(2026, 2, 27)));

        (await shop.DrainAsync(Some.Start.AddDays(-2))).Done();

        var tasks = await shop.ReadAsync(db => db.CareTasks.OrderBy(t => t.DueAtUtc).ToListAsync());
        Assert.Equal([TaskState.Withdrawn, TaskState.Open], tasks.Select(t => t.State));
        var calendar = (await shop.SetupAsync()).Calendar;
        Assert.True(CareSchedule.DueDayOf(tasks[1].DueAtUtc, calendar) >= calendar.ShopDayOf(Some.Start.AddDays(12)));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // A draining planned for next year is not done by one today.
    [Theory, EachDatabase]
    public async Task Drain_BeforeThePlansIntervalBegan_LeavesTheTaskOpen(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.DrainClean, days: 30, anchor: new DateOnly(2027, 3, 1)));

        (await shop.DrainAsync(Some.Start)).Done();

        Assert.Equal(TaskState.Open, await shop.ReadAsync(db => db.CareTasks.Select(t => t.State).SingleAsync()));
    }

    // Invariant 1: readings fall inside their charge's life.
    [Theory, EachDatabase]
    public async Task Drain_BeforeTheLastReadingOrInTheFuture_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading());

        Assert.Equal(new FieldError("drainedAt", FieldProblem.BeforeTheLastEntry, EarliestUtc: Some.Start), (await shop.DrainAsync(Some.Start.AddMilliseconds(-1))).Field());
        Assert.Equal(FieldProblem.InTheFuture, (await shop.DrainAsync(Some.Start.AddMinutes(6))).Field().Problem);
        Assert.Equal(FieldProblem.OutOfRange, (await shop.DrainAsync(Some.Start, litres: -1)).Field().Problem);
        Assert.Equal(new SumpNotFound("S-99"), (await shop.DrainAsync(Some.Start, tag: "S-99")).Refused());
        (await shop.DrainAsync(Some.Start)).Done();
        Assert.Equal(new NoOpenCharge("S-07"), (await shop.DrainAsync(Some.Start)).Refused());
    }
}
