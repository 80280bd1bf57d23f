using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Care;
using ShopFluids.Core.CleanOuts;
using ShopFluids.Core.Database;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Record.Replay;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.CleanOuts;

/// <summary>The one act at the end: all of it or nothing, once.</summary>
public sealed class FinishCleanOutTests
{
    [Theory, EachDatabase]
    public async Task HandleAsync_AllSteps_EndsTheOldChargeAndBeginsTheNew(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(ph: 8.0m));
        var run = new CleanOutRun(shop);
        await run.UpToAsync(CleanOutStepKind.Refill);

        var outcome = (await run.EndAsync(actor: Some.Supervisor)).Done().Outcome;

        var charges = await shop.ReadAsync(db => db.Charges.OrderBy(c => c.Number).ToListAsync());
        Assert.Equal([1, 2], charges.Select(c => c.Number));
        Assert.Equal((Some.Start.AddMinutes(50), Some.Start.AddMinutes(100)), (charges[0].DrainedAtUtc, charges[1].FilledAtUtc));
        Assert.Equal((null, 160m), (charges[1].DrainedAtUtc, charges[1].FillLitres));
        var removal = await shop.ReadAsync(db => db.Removals.SingleAsync());
        Assert.Equal((charges[0].Id, 143m, "drain"), (removal.ChargeId, removal.Litres, removal.Reason));
        var fill = await shop.ReadAsync(db => db.Additions.SingleAsync(a => a.ChargeId == charges[1].Id));
        Assert.Equal((147.2m, 12.8m, shop.LotId), (fill.WaterLitres, fill.ConcentrateLitres, fill.LotId));
        Assert.Equal(200 - 12 - 12.8m, await shop.ReadAsync(db => db.FluidLots.Select(l => l.RemainingLitres).SingleAsync()));
        var reading = await shop.ReadAsync(db => db.Readings.SingleAsync(r => r.Id == outcome.ReadingId));
        Assert.Equal((charges[1].Id, Verdict.InRange), (reading.ChargeId, reading.Verdict));
        Assert.All(await shop.ReadAsync(db => db.Flags.ToListAsync()), f => Assert.Equal(FlagEnd.ChargeEnded, f.EndedHow));
        var done = await shop.ReadAsync(db => db.CleanOuts.SingleAsync());
        Assert.Equal((charges[1].Id, reading.Id, Some.Supervisor.PersonId), (done.NewChargeId, done.ReadingId, done.EndedByPersonId));
        Assert.Equal(165, (await shop.ReadAsync(db => db.Standings.SingleAsync())).VolumeLitres);
    }

    // Both keep the books: every entry of the record, and what the rules answered.
    [Theory, EachDatabase]
    public async Task HandleAsync_Finished_RecordVerifiesAndReplays(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test));
        await shop.StepAsync(Some.Step(TaskKind.Test, basis: IntervalBasis.AfterFill, days: 1, parameters: [ParameterCodes.Ph]));
        await shop.StoreAsync(Some.Reading(brix: 4.0m));
        await new CleanOutRun(shop).FinishAsync();
        shop.Clock.Advance(TimeSpan.FromDays(1));
        await shop.StoreAsync(Some.Reading(brix: 8.5m, takenAt: shop.Now));

        Assert.Empty((await shop.VerifyAsync()).Findings);
        var replay = await shop.Get<ReplayQuery>().RunAsync(TestContext.Current.CancellationToken);
        Assert.Empty(replay.Differences);
        Assert.Equal(3, replay.Readings);
        Assert.Equal(
            [ActCodes.ChargeDrained, ActCodes.ChargeFilled, ActCodes.ReadingStored, ActCodes.CleanOutFinished],
            (await shop.ReadAsync(db => db.RecordEntries.OrderBy(e => e.Sequence).Select(e => e.Code).ToListAsync())).SkipWhile(c => c != ActCodes.ChargeDrained).Take(4));
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_DrainingWasPlanned_IsDoneWithWhatWasFoundAndPlannedOn(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var drain = await shop.StepAsync(Some.Step(TaskKind.DrainClean, basis: IntervalBasis.FromLastDone, days: 90));
        var after = await shop.StepAsync(Some.Step(TaskKind.Skim, basis: IntervalBasis.AfterFill, days: 3));
        var before = await shop.ReadAsync(db => db.CareTasks.Where(t => t.StepId == after.Id).Select(t => t.Id).ToListAsync());

        await new CleanOutRun(shop).FinishAsync();

        var tasks = await shop.ReadAsync(db => db.CareTasks.ToListAsync());
        var done = Assert.Single(tasks, t => t.StepId == drain.Id && t.State == TaskState.Done);
        Assert.Equal(("sludgeMm", 35m, "Intake screen cracked, replaced"), (done.Found?.What, done.Found?.Value, done.Found?.Note));
        Assert.Single(tasks, t => t.StepId == drain.Id && t.State == TaskState.Open && t.DueAtUtc > shop.Now.AddDays(88));
        Assert.Single(tasks, t => t.StepId == after.Id && t.State == TaskState.Open && !before.Contains(t.Id));
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_SameReadingTwice_FinishesOnce(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var run = new CleanOutRun(shop);
        await run.UpToAsync(CleanOutStepKind.Refill);
        var reading = run.Reading();
        (await run.EndAsync(reading)).Done();
        var before = await shop.FootprintAsync();

        Assert.False((await run.EndAsync(reading)).Done().IsNew);
        Assert.Equal(new CleanOutIsOver(run.Id, reading.Id), (await run.EndAsync()).Refused());
        Assert.Equal(new CleanOutIsOver(run.Id, reading.Id), (await run.NoteAsync(CleanOutStepKind.Refill)).Refused());
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_TwoTabletsAtOnce_OneFinishes(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var run = new CleanOutRun(shop);
        await run.UpToAsync(CleanOutStepKind.Refill);
        await using var other = shop.Another();

        var answers = await Task.WhenAll(Enumerable.Range(0, 8).Select(n => Task.Run(() => run.EndAsync(at: n % 2 == 0 ? shop : other))));

        var winner = Assert.Single(answers, a => a.Value is not null).Done();
        Assert.All(answers.Where(a => a.Value is null), a => Assert.Equal(new CleanOutIsOver(run.Id, winner.Outcome.ReadingId), a.Error));
        Assert.Equal((2, 1), (await shop.CountAsync<Core.Charges.Charge>(), await shop.CountAsync<Reading>()));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_ReadingRefused_ChangesNothing(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var run = new CleanOutRun(shop);
        await run.UpToAsync(CleanOutStepKind.Refill);
        var before = await shop.FootprintAsync();

        Assert.Equal("measurements.ph", (await run.EndAsync(Some.Reading(ph: 15, takenAt: shop.Now))).Field().Field);
        Assert.Equal(FieldProblem.BeforeTheFill, (await run.EndAsync(Some.Reading(takenAt: Some.Start))).Field().Problem);
        Assert.Equal(before, await shop.FootprintAsync());

        // A set-up that was never committed must not have stayed in anybody's memory.
        Assert.Equal(shop.ChargeId, (await shop.SetupAsync()).OpenCharge(shop.SumpId)?.Id);
        (await run.EndAsync()).Done();
        Assert.Equal(2, (await shop.SetupAsync()).OpenCharge(shop.SumpId)?.Number);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_LotBarredSinceTheRefill_ChangesNothingAndNamesTheLot(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var run = new CleanOutRun(shop);
        await run.UpToAsync(CleanOutStepKind.Refill);
        (await shop.Get<QuarantineLotHandler>().HandleAsync(new(shop.LotId, "Split drum"), Some.Supervisor, TestContext.Current.CancellationToken)).Done();
        var before = await shop.FootprintAsync();

        var refused = Assert.IsType<RefillNotPossible>((await run.EndAsync()).Refused());
        Assert.Equal(("lot", FieldProblem.LotQuarantined), (refused.Fields[0].Field, refused.Fields[0].Problem));
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_TwoLots_AreBothTracedToTheFill(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database, also: s => s.AddSingleton<SumpPageQuery>());
        var lot = Some.Id();
        (await shop.Get<ReceiveLotHandler>().HandleAsync(Some.Lot(lot, shop.FluidId, "L-2"), Some.Supervisor, TestContext.Current.CancellationToken)).Done();
        var run = new CleanOutRun(shop);
        await run.UpToAsync(CleanOutStepKind.Unlock);
        (await run.NoteAsync(CleanOutStepKind.Refill, new(WaterLitres: 147, Draws: [new(shop.LotId, 6), new(lot, 7)]))).Done();
        (await run.EndAsync()).Done();

        var charge = (await shop.SetupAsync()).OpenCharge(shop.SumpId);
        var fill = await shop.ReadAsync(db => db.Additions.Where(a => a.ChargeId == charge!.Id).OrderByDescending(a => a.WaterLitres).ToListAsync());
        Assert.Equal([(147m, 6m, (Guid?)shop.LotId), (0m, 7m, lot)], fill.Select(a => (a.WaterLitres, a.ConcentrateLitres, a.LotId)));
        var page = await shop.Get<SumpPageQuery>().RunAsync(Some.SumpTag, TestContext.Current.CancellationToken);
        Assert.Equal(("L-1, L-2", 147m, 13m), (page?.Charge?.FillLot, page?.Charge?.WaterFilledLitres, page?.Charge?.ConcentrateFilledLitres));
    }

    [Theory, EachDatabase]
    public async Task PreviewAsync_AllSteps_AnswersAndStoresNothing(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(ph: 8.0m));
        var run = new CleanOutRun(shop);
        await run.UpToAsync(CleanOutStepKind.Refill);
        var before = await shop.FootprintAsync();

        var preview = (await shop.Get<FinishCleanOutHandler>().PreviewAsync(new(run.Id, run.Reading()), Some.Operator, TestContext.Current.CancellationToken)).Done();

        Assert.Equal(Verdict.InRange, preview.Outcome.Verdict);
        Assert.All(preview.Outcome.Measurements, m => Assert.Null(m.Previous));
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory, EachDatabase]
    public async Task Drain_InAnotherWay_BreaksTheCleanOutOff(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var run = new CleanOutRun(shop);
        await run.UpToAsync(CleanOutStepKind.Carrier);
        (await shop.DrainAsync(shop.Now)).Done();

        Assert.Equal(new CleanOutIsOver(run.Id, null), (await run.NoteAsync(CleanOutStepKind.LockOut)).Refused());
        var ended = await shop.ReadAsync(db => db.CleanOuts.SingleAsync());
        Assert.Equal((shop.Now, "", null), (ended.EndedAtUtc, ended.BrokenOffReason, ended.NewChargeId));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task BreakOff_WithReason_LetsTheNextBeginAnew(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var run = new CleanOutRun(shop);
        await run.UpToAsync(CleanOutStepKind.Carrier);
        var handler = shop.Get<BreakOffCleanOutHandler>();

        Assert.Equal(new FieldError("reason", FieldProblem.Missing), (await handler.HandleAsync(new(run.Id, " "), Some.Operator, TestContext.Current.CancellationToken)).Field());
        (await handler.HandleAsync(new(run.Id, "Carrier did not come"), Some.Operator, TestContext.Current.CancellationToken)).Done();
        (await handler.HandleAsync(new(run.Id, "Carrier did not come"), Some.Operator, TestContext.Current.CancellationToken)).Done();
        Assert.Equal(new CleanOutIsOver(run.Id, null), (await handler.HandleAsync(new(run.Id, "Another"), Some.Operator, TestContext.Current.CancellationToken)).Refused());

        var next = new CleanOutRun(shop);
        await next.FinishAsync();
        Assert.Equal(2, await shop.CountAsync<CleanOut>());
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }
}
