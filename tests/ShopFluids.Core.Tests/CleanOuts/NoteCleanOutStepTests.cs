using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.CleanOuts;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Setup;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.CleanOuts;

public sealed class NoteCleanOutStepTests
{
    [Theory, EachDatabase]
    public async Task HandleAsync_StepsInOrder_KeepWhoWhenAndWhat(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var run = new CleanOutRun(shop);
        await run.UpToAsync(CleanOutStepKind.Drain);
        (await run.NoteAsync(CleanOutStepKind.Wipe, actor: Some.Supervisor)).Done();

        var steps = await shop.ReadAsync(db => db.CleanOutSteps.OrderBy(s => s.Kind).ToListAsync());
        Assert.Equal(Enum.GetValues<CleanOutStepKind>().Where(k => k <= CleanOutStepKind.Wipe), steps.Select(s => s.Kind));
        Assert.Equal(Some.Start.AddMinutes(50), steps[5].DoneAtUtc);
        Assert.Equal((143m, (decimal?)35m), (steps[5].Noted.AllWasteLitres(), steps[5].Noted.SludgeMm));
        Assert.Equal((Some.Operator.PersonId, Some.Supervisor.PersonId), ((Guid?)steps[5].PersonId, (Guid?)steps[6].PersonId));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // Neither the order nor what safety hangs on gives way.
    [Theory, EachDatabase]
    public async Task HandleAsync_EarlierStepOpen_IsRefusedWithItsName(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var run = new CleanOutRun(shop);
        await run.UpToAsync(CleanOutStepKind.Carrier);
        var before = await shop.FootprintAsync();

        Assert.Equal(new CleanOutStepMissing(CleanOutStepKind.LockOut), (await run.NoteAsync(CleanOutStepKind.Drain)).Refused());
        Assert.Equal(new CleanOutStepMissing(CleanOutStepKind.LockOut), (await run.EndAsync()).Refused());
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory]
    [EachDatabase(CleanOutStepKind.SafetySheets)]
    [EachDatabase(CleanOutStepKind.Carrier)]
    [EachDatabase(CleanOutStepKind.LockOut)]
    [EachDatabase(CleanOutStepKind.Drain)]
    [EachDatabase(CleanOutStepKind.Inspect)]
    [EachDatabase(CleanOutStepKind.Unlock)]
    [EachDatabase(CleanOutStepKind.Refill)]
    public async Task HandleAsync_StepThatIsNeeded_IsNotLeftOut(TestDatabase database, CleanOutStepKind kind)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var run = new CleanOutRun(shop);
        await run.UpToAsync(kind - 1);

        Assert.Equal(new CleanOutStepNeeded(kind), (await run.NoteAsync(kind, new(Text: "No time", IsLeftOut: true), isSupervisor: true)).Refused());
    }

    [Theory]
    [EachDatabase(CleanOutStepKind.SafetySheets)]
    [EachDatabase(CleanOutStepKind.Carrier)]
    [EachDatabase(CleanOutStepKind.LockOut)]
    [EachDatabase(CleanOutStepKind.Unlock)]
    public async Task HandleAsync_ConfirmationMissing_IsRefusedAtIt(TestDatabase database, CleanOutStepKind kind)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var run = new CleanOutRun(shop);
        await run.UpToAsync(kind - 1);
        var whole = run.Note(kind);

        foreach (var missing in CleanOutConfirmations.Of(kind))
        {
            var answer = await run.NoteAsync(kind, whole with { Confirmed = [.. CleanOutConfirmations.Of(kind).Where(c => c != missing)] });
            Assert.Equal(new FieldError(missing, FieldProblem.Missing), answer.Field());
        }
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_LeftOut_AsksWhy(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var run = new CleanOutRun(shop);
        await run.UpToAsync(CleanOutStepKind.SafetySheets);

        Assert.Equal(new FieldError("reason", FieldProblem.Missing), (await run.NoteAsync(CleanOutStepKind.Cleaner, new(Text: " ", IsLeftOut: true))).Field());
        Assert.True((await run.NoteAsync(CleanOutStepKind.Cleaner, new(Text: "Fluid is clean", IsLeftOut: true))).Done().IsNew);
    }

    // Planned for 12 h. Noted ten minutes after the step before, or with fewer hours typed, somebody is asked once; the answer stays.
    [Theory]
    [EachDatabase(10, 12.0, 0.1667)]
    [EachDatabase(700, 12.0, 11.6667)]
    [EachDatabase(720, 3.0, 3.0)]
    public async Task HandleAsync_CleanerNotRoundForItsHours_AsksOnceAndKeepsTheReason(TestDatabase database, int minutes, double hours, double atMost)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var run = new CleanOutRun(shop);
        await run.UpToAsync(CleanOutStepKind.SafetySheets);
        shop.Clock.Advance(TimeSpan.FromMinutes(minutes - 10));
        var note = new CleanOutNote(CleanerLitres: 3, Hours: (decimal)hours);

        var asked = (await run.NoteAsync(CleanOutStepKind.Cleaner, note)).Field();

        Assert.Equal(("shortReason", FieldProblem.CirculatedTooShort, 12m), (asked.Field, asked.Problem, asked.Low));
        Assert.Equal((decimal)atMost, decimal.Round(asked.Value ?? 0, 4));
        Assert.True((await run.NoteAsync(CleanOutStepKind.Cleaner, note with { ShortReason = " Put in at six " })).Done().IsNew);
        var kept = await shop.ReadAsync(db => db.CleanOutSteps.SingleAsync(s => s.Kind == CleanOutStepKind.Cleaner));
        Assert.Equal("Put in at six", kept.Noted.ShortReason);
        Assert.Contains("Put in at six", await shop.ReadAsync(db => db.RecordEntries.OrderByDescending(e => e.Sequence).Select(e => e.Changes).FirstAsync()), StringComparison.Ordinal);
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory]
    [EachDatabase(705)]
    [EachDatabase(2000)]
    public async Task HandleAsync_CleanerRoundForItsHours_AsksNothing(TestDatabase database, int minutes)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var run = new CleanOutRun(shop);
        await run.UpToAsync(CleanOutStepKind.SafetySheets);
        shop.Clock.Advance(TimeSpan.FromMinutes(minutes - 10));

        Assert.True((await run.NoteAsync(CleanOutStepKind.Cleaner, new(CleanerLitres: 3, Hours: 12))).Done().IsNew);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_PlanWithoutCleanerAndRinses_HasNoSuchSteps(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var run = new CleanOutRun(shop);
        (await run.NoteAsync(CleanOutStepKind.Plan, new(Choice: CleanOutRun.Choice with { CleanerPercent = 0, Rinses = 0, RinseLitres = 0 }))).Done();
        (await run.NoteAsync(CleanOutStepKind.SafetySheets)).Done();

        Assert.True((await run.NoteAsync(CleanOutStepKind.Carrier)).Done().IsNew);
        Assert.DoesNotContain(
            (await shop.Get<CleanOutPageQuery>().RunAsync(Some.SumpTag, TestContext.Current.CancellationToken)).Done().Steps,
            s => s.Kind is CleanOutStepKind.Cleaner or CleanOutStepKind.Rinse);
    }

    // Of 200 L no more than half as much again leaves in one step, under whatever codes.
    [Theory, EachDatabase]
    public async Task HandleAsync_MoreWasteThanTheSumpHolds_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var run = new CleanOutRun(shop);
        await run.UpToAsync(CleanOutStepKind.Drain - 1);

        var answer = await run.NoteAsync(CleanOutStepKind.Drain, new(Waste: [new("12 01 09*", 200), new("13 05 06*", 100.1m)]));

        Assert.Equal(new FieldError("wasteLitres1", FieldProblem.OutOfRange, 300.1m, 0, 300, "L"), answer.Field());
        Assert.True((await run.NoteAsync(CleanOutStepKind.Drain, new(Waste: [new("12 01 09*", 200), new("13 05 06*", 100)]))).Done().IsNew);
    }

    public static TheoryData<CleanOutChoice, string, decimal, decimal> WrongChoices => new()
    {
        { CleanOutRun.Choice with { ContentLitres = 0.9m, HeelLitres = 0 }, "contentLitres", 1, 200 },
        { CleanOutRun.Choice with { ContentLitres = 200.1m }, "contentLitres", 1, 200 },
        { CleanOutRun.Choice with { HeelLitres = 75.1m }, "heelLitres", 0, 75 },
        { CleanOutRun.Choice with { CleanerPercent = 20.1m }, "cleanerPercent", 0, 20 },
        { CleanOutRun.Choice with { CirculationHours = 1000.1m }, "circulationHours", 0, 1000 },
        { CleanOutRun.Choice with { Rinses = 21 }, "rinses", 0, 20 },
        { CleanOutRun.Choice with { RinseLitres = 0 }, "rinseLitres", 1, 190 },
        { CleanOutRun.Choice with { RinseLitres = 190.1m }, "rinseLitres", 1, 190 },
    };

    [Theory, MemberData(nameof(WrongChoices))]
    public void Check_ChoiceOutOfRange_NamesFieldAndRange(CleanOutChoice choice, string field, decimal low, decimal high)
    {
        var error = Assert.Single(CleanOutChecks.Check(CleanOutStepKind.Plan, new(Choice: choice), Sump));

        Assert.Equal((field, FieldProblem.OutOfRange, low, high), (error.Field, error.Problem, error.Low, error.High));
    }

    // Whatever the checks accept, the calculation can do.
    [Theory]
    [InlineData(1, 0.5, 20, 20, 1)]
    [InlineData(200, 85, 20, 20, 115)]
    [InlineData(200, 0, 20, 0, 0)]
    [InlineData(1, 0, 0, 1, 200)]
    public void Of_ChoiceAtTheEdge_IsWorkedOut(double content, double heel, double cleaner, int rinses, double rinse)
    {
        var choice = new CleanOutChoice((decimal)content, (decimal)heel, (decimal)cleaner, 1000, rinses, (decimal)rinse);
        Assert.Empty(CleanOutChecks.Check(CleanOutStepKind.Plan, new(Choice: choice), Sump));

        var plan = CleanOutNumbers.Of(choice, Sump, new(Some.Id(), Some.Fluid(Some.Id()).Data), 5m);

        Assert.True(plan.DrainLitres >= 0 && plan.Refill.MixedLitres > 0);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_SameStepTwice_IsNotedOnce(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var run = new CleanOutRun(shop);
        await run.UpToAsync(CleanOutStepKind.Drain);
        var before = await shop.FootprintAsync();

        Assert.False((await run.NoteAsync(CleanOutStepKind.Drain)).Done().IsNew);
        Assert.False((await run.NoteAsync(CleanOutStepKind.Plan)).Done().IsNew);
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_PutRight_KeepsTheTimeAndTheRecordKeepsBoth(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var run = new CleanOutRun(shop);
        await run.UpToAsync(CleanOutStepKind.Drain);
        var right = run.Note(CleanOutStepKind.Drain) with { SludgeMm = 53 };

        Assert.Equal(new CleanOutStepChanged(CleanOutStepKind.Drain), (await run.NoteAsync(CleanOutStepKind.Drain, right)).Refused());
        Assert.Equal(2, (await run.NoteAsync(CleanOutStepKind.Drain, right, seen: 1, actor: Some.Supervisor)).Done().Round);

        var step = await shop.ReadAsync(db => db.CleanOutSteps.SingleAsync(s => s.Kind == CleanOutStepKind.Drain));
        Assert.Equal(((decimal?)53m, Some.Start.AddMinutes(50), Some.Supervisor.PersonId), (step.Noted.SludgeMm, step.DoneAtUtc, (Guid?)step.PersonId));
        Assert.Contains("35", await shop.ReadAsync(db => db.RecordEntries.OrderByDescending(e => e.Sequence).Select(e => e.Changes).FirstAsync()), StringComparison.Ordinal);
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // The sump is 400 mm deep.
    [Theory, EachDatabase]
    public async Task HandleAsync_MoreSludgeThanTheSumpIsDeep_IsRefusedWithTheRange(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var run = new CleanOutRun(shop);
        await run.UpToAsync(CleanOutStepKind.LockOut);

        var fault = (await run.NoteAsync(CleanOutStepKind.Drain, run.Note(CleanOutStepKind.Drain) with { SludgeMm = 401 })).Field();

        Assert.Equal((CleanOutFields.SludgeMm, FieldProblem.OutOfRange, 0m, 400m, "mm"), (fault.Field, fault.Problem, fault.Low, fault.High, fault.Unit));
        (await run.NoteAsync(CleanOutStepKind.Drain, run.Note(CleanOutStepKind.Drain) with { SludgeMm = 400 })).Done();
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_TwoBeginAtOnce_OneRuns(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var other = shop.Another();

        var answers = await Task.WhenAll(Enumerable.Range(0, 8).Select(n => Task.Run(() => new CleanOutRun(shop).NoteAsync(CleanOutStepKind.Plan, at: n % 2 == 0 ? shop : other))));

        Assert.Equal(1, answers.Count(a => a.Value is not null));
        Assert.All(answers.Where(a => a.Value is null), a => Assert.Equal(new CleanOutStepChanged(CleanOutStepKind.Plan), a.Error));
        Assert.Equal((1, 1), (await shop.CountAsync<CleanOut>(), await shop.CountAsync<CleanOutStep>()));
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_TwoTickOneStepAtOnce_OneCounts(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var run = new CleanOutRun(shop);
        await run.UpToAsync(CleanOutStepKind.LockOut);
        await using var other = shop.Another();

        var answers = await Task.WhenAll(Enumerable.Range(0, 8).Select(n => Task.Run(() =>
            run.NoteAsync(CleanOutStepKind.Drain, new(Waste: [new("12 01 09*", 100 + n)]), at: n % 2 == 0 ? shop : other))));

        Assert.Equal(1, answers.Count(a => a.Value is { IsNew: true }));
        Assert.All(answers.Where(a => a.Value is null), a => Assert.Equal(new CleanOutStepChanged(CleanOutStepKind.Drain), a.Error));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory]
    [EachDatabase(true, false)]
    [EachDatabase(false, true)]
    public async Task HandleAsync_LotBarredOrExpired_IsRefusedAtTheLot(TestDatabase database, bool isBarred, bool isExpired)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var lot = Some.Id();
        (await shop.Get<ReceiveLotHandler>().HandleAsync(Some.Lot(lot, shop.FluidId, "L-2", expires: isExpired ? new DateOnly(2026, 3, 1) : null), Some.Supervisor, TestContext.Current.CancellationToken)).Done();
        if (isBarred)
        {
            (await shop.Get<QuarantineLotHandler>().HandleAsync(new(lot, "Split drum"), Some.Supervisor, TestContext.Current.CancellationToken)).Done();
        }

        var run = new CleanOutRun(shop);
        await run.UpToAsync(CleanOutStepKind.Unlock);
        var note = new CleanOutNote(WaterLitres: 147, Draws: [new(shop.LotId, 6), new(lot, 7)]);

        var error = (await run.NoteAsync(CleanOutStepKind.Refill, note with { OverrideReason = "Tested, good" })).Field();
        Assert.Equal(("lot2", isBarred ? FieldProblem.LotQuarantined : FieldProblem.LotExpired), (error.Field, error.Problem));
        Assert.True((await run.NoteAsync(CleanOutStepKind.Refill, note with { OverrideReason = "Tested, good" }, actor: Some.Supervisor, isSupervisor: true)).Done().IsNew);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_RefillOverTheBrimOrTheLot_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var run = new CleanOutRun(shop);
        await run.UpToAsync(CleanOutStepKind.Unlock);

        Assert.Equal(FieldProblem.OverTheBrim, (await run.NoteAsync(CleanOutStepKind.Refill, new(WaterLitres: 190, Draws: [new(shop.LotId, 10.1m)]))).Field().Problem);
        Assert.Equal(new FieldError("lot", FieldProblem.Missing), (await run.NoteAsync(CleanOutStepKind.Refill, new(WaterLitres: 140, Draws: [new(null, 10)]))).Field());
        var tooMuch = (await run.NoteAsync(CleanOutStepKind.Refill, new(WaterLitres: 1, Draws: [new(shop.LotId, 100), new(shop.LotId, 88.1m)]))).Field();
        Assert.Equal(("concentrateLitres", FieldProblem.LotTooSmall), (tooMuch.Field, tooMuch.Problem));
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_NoSumpNoChargeOrUnknown_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var run = new CleanOutRun(shop);

        Assert.Equal(new CleanOutNotFound(run.Id), (await run.NoteAsync(CleanOutStepKind.Drain)).Refused());
        Assert.Equal(new SumpNotFound("S-99"), (await shop.Get<NoteCleanOutStepHandler>().HandleAsync(new(run.Id, "S-99", CleanOutStepKind.Plan, 0, run.Note(CleanOutStepKind.Plan)), Some.Operator, false, TestContext.Current.CancellationToken)).Refused());
        (await shop.DrainAsync(Some.Start)).Done();
        Assert.Equal(new NoOpenCharge("S-07"), (await run.NoteAsync(CleanOutStepKind.Plan)).Refused());
    }

    private static Core.Sumps.Sump Sump
    {
        get
        {
            var command = Some.Sump(Some.Id(), Some.Id());
            return new(command.Id, command.AreaId, command.Tag, command.Shape, command.FullMarkMm, command.PumpIntakeMm, command.WalkOrder, command.WaterSourceId);
        }
    }
}
