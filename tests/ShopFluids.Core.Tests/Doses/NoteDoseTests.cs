using Microsoft.EntityFrameworkCore;
using ShopFluids.Calculations.Additives;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;
using Dose = ShopFluids.Core.Doses.Dose;

namespace ShopFluids.Core.Tests.Doses;

/// <summary>An additive is noted once, as its label allows; what asked for it is done by it.</summary>
public sealed class NoteDoseTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task HandleAsync_AsTheLabelAllows_IsKeptWithWhatItComesToAndItsReentry(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        var noted = (await NoteAsync(shop, Some.Dose())).Done();

        // 180 mL in 150 L.
        Assert.Equal((1.2m, DoseMeasure.MillilitresPerLitre, Some.Start.AddHours(4), true), (noted.Reached, noted.Measure, noted.ReentryUntilUtc, noted.IsNew));
        var kept = await shop.ReadAsync(db => db.Doses.SingleAsync());
        Assert.Equal((shop.ChargeId, "Biocide B-20", DoseKind.Biocide, 180m, 150m, 1.5m), (kept.ChargeId, kept.Product, kept.Kind, kept.Amount, kept.VolumeLitres, kept.LabelMost));
        Assert.Equal((Some.Operator.PersonId, true, "Smell on Monday"), (kept.PersonId, kept.IsSafetyConfirmed, kept.Reason));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_SameIdAgain_NotesOnceAndRefusesOtherContent(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.SumpAsync(Some.Sump(Some.Id(), shop.AreaId, "S-08", "M-08"));
        var command = Some.Dose();
        (await NoteAsync(shop, command)).Done();
        var before = await shop.FootprintAsync();

        Assert.False((await NoteAsync(shop, command with { Product = " Biocide B-20 ", Amount = 180.00m })).Done().IsNew);
        NoteDose[] others =
        [
            command with { SumpTag = "S-08" }, command with { GivenAtUtc = Some.Start.AddMinutes(-1) }, command with { Product = "Biocide B-21" }, command with { Kind = DoseKind.Fungicide },
            command with { Amount = 181 }, command with { Unit = DoseUnit.Gram }, command with { VolumeLitres = 151 }, command with { LabelMost = 2 }, command with { LabelHours = 97 },
            command with { ReentryHours = 5 }, command with { Reason = "Said otherwise" }, command with { IsSafetyConfirmed = false }, command with { Measure = DoseMeasure.PercentByVolume },
        ];
        foreach (var other in others)
        {
            Assert.Equal(new OtherContentForId(command.Id), (await NoteAsync(shop, other)).Refused());
        }

        Assert.Equal(before, await shop.FootprintAsync());

        shop.Clock.Advance(TimeSpan.FromHours(1));
        (await shop.DrainAsync(shop.Now)).Done();
        Assert.False((await NoteAsync(shop, command)).Done().IsNew);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_ManyAtOnceWithOneId_AreNotedOnce(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var other = shop.Another();
        var command = Some.Dose();

        var answers = await Task.WhenAll(Enumerable.Range(0, 10).Select(n => Task.Run(() => NoteAsync(n % 2 == 0 ? shop : other, command))));

        Assert.Equal(1, answers.Count(a => a.Done().IsNew));
        Assert.Equal(1, await shop.CountAsync<Dose>());
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_EveryFieldBeyondItsRange_IsNamedWithTheRange(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var before = await shop.FootprintAsync();
        var good = Some.Dose();

        await RefusedAsync(shop, good with { Id = Guid.Empty }, new("id", FieldProblem.Missing));
        await RefusedAsync(shop, good with { GivenAtUtc = Some.Start.AddMinutes(6) }, new(DoseFields.GivenAt, FieldProblem.InTheFuture));
        await RefusedAsync(shop, good with { GivenAtUtc = Some.Start.AddDays(-11) }, new(DoseFields.GivenAt, FieldProblem.BeforeTheFill, EarliestUtc: Some.Start.AddDays(-10)));
        await RefusedAsync(shop, good with { Product = " " }, new(DoseFields.Product, FieldProblem.Missing));
        await RefusedAsync(shop, good with { Product = new string('x', 201) }, new(DoseFields.Product, FieldProblem.TooLong, 201, 1, 200));
        await RefusedAsync(shop, good with { Reason = "" }, new(DoseFields.Reason, FieldProblem.Missing));
        await RefusedAsync(shop, good with { Kind = default }, new(DoseFields.Kind, FieldProblem.UnknownChoice));
        await RefusedAsync(shop, good with { Unit = default }, new(DoseFields.Unit, FieldProblem.UnknownChoice));
        await RefusedAsync(shop, good with { Measure = default(DoseMeasure) }, new(DoseFields.LabelMeasure, FieldProblem.UnknownChoice));
        await RefusedAsync(shop, good with { Amount = 0 }, new(DoseFields.Amount, FieldProblem.OutOfRange, 0, 0.01m, 1_000_000, "mL"));
        await RefusedAsync(shop, good with { VolumeLitres = 200.1m }, new(DoseFields.Volume, FieldProblem.OutOfRange, 200.1m, 0.1m, 200, "L"));
        await RefusedAsync(shop, good with { VolumeLitres = 165.1m }, new(DoseFields.Volume, FieldProblem.OutOfRange, 165.1m, 0.1m, 165, "L"));
        await RefusedAsync(shop, good with { LabelMost = 1001 }, new(DoseFields.LabelMost, FieldProblem.OutOfRange, 1001, 0.001m, 1000, "mL/L"));
        await RefusedAsync(shop, good with { LabelHours = -1 }, new(DoseFields.LabelHours, FieldProblem.OutOfRange, -1, 0, 100_000, "h"));
        await RefusedAsync(shop, good with { ReentryHours = 1001 }, new(DoseFields.ReentryHours, FieldProblem.OutOfRange, 1001, 0, 1000, "h"));
        await RefusedAsync(shop, good with { Measure = DoseMeasure.GramsPerLitre }, new(DoseFields.Density, FieldProblem.Missing));
        await RefusedAsync(shop, good with { Measure = DoseMeasure.GramsPerLitre, DensityKgPerLitre = 3.1m }, new(DoseFields.Density, FieldProblem.OutOfRange, 3.1m, 0.5m, 3, "kg/L"));
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_WhatKills_NeedsLabelReentryAndTheTickAndOthersDoNot(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var bare = Some.Dose() with { LabelMost = null, LabelHours = null, ReentryHours = null, IsSafetyConfirmed = false };

        foreach (var kind in new[] { DoseKind.Biocide, DoseKind.Fungicide })
        {
            Assert.Equal(
                [(DoseFields.LabelMost, FieldProblem.Missing), (DoseFields.LabelHours, FieldProblem.Missing), (DoseFields.ReentryHours, FieldProblem.Missing), (DoseFields.Safety, FieldProblem.Missing)],
                Assert.IsType<FieldErrors>((await NoteAsync(shop, bare with { Kind = kind })).Refused()).Fields.Select(f => (f.Field, f.Problem)));
        }

        Assert.Null((await NoteAsync(shop, bare with { Kind = DoseKind.Defoamer })).Done().ReentryUntilUtc);
    }

    [Theory]
    [EachDatabase(225.0, DoseUnit.Millilitre, DoseMeasure.MillilitresPerLitre, 1.5, null, null)]
    [EachDatabase(225.01, DoseUnit.Millilitre, DoseMeasure.MillilitresPerLitre, 1.5, null, 225.0)]
    [EachDatabase(225.0, DoseUnit.Millilitre, DoseMeasure.PercentByVolume, 0.15, null, null)]
    [EachDatabase(225.01, DoseUnit.Millilitre, DoseMeasure.PpmByVolume, 1500.0, null, 225.0)]
    [EachDatabase(180.0, DoseUnit.Millilitre, DoseMeasure.GramsPerLitre, 1.5, 1.25, null)]
    [EachDatabase(180.01, DoseUnit.Millilitre, DoseMeasure.MilligramsPerKilogram, 1500.0, 1.25, 180.0)]
    [EachDatabase(281.25, DoseUnit.Gram, DoseMeasure.MillilitresPerLitre, 1.5, 1.25, null)]
    [EachDatabase(281.26, DoseUnit.Gram, DoseMeasure.MillilitresPerLitre, 1.5, 1.25, 281.25)]
    public async Task HandleAsync_AboveTheLabel_IsRefusedWithTheMostThatIsAccepted(
        TestDatabase database, double amount, DoseUnit unit, DoseMeasure measure, double label, double? density, double? most)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var command = Some.Dose() with { Amount = (decimal)amount, Unit = unit, Measure = measure, LabelMost = (decimal)label, DensityKgPerLitre = (decimal?)density };

        var answer = await NoteAsync(shop, command);

        if (most is null)
        {
            Assert.Equal((decimal)label, answer.Done().Reached);
        }
        else
        {
            Assert.Equal(new FieldError(DoseFields.Amount, FieldProblem.OutOfRange, (decimal)amount, 0.01m, (decimal)most, DoseUnits.Of(unit)), answer.Field());
            (await NoteAsync(shop, command with { Amount = (decimal)most })).Done();
        }
    }

    [Fact]
    public async Task HandleAsync_AboveTheLabel_SaysTheFieldAndItsRange()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await ShopFixture.OpenAsync(database);
        var setup = await shop.SetupAsync();
        var say = new Sentences(setup.FormatFor(), setup);

        Assert.Equal("Amount given 300 mL is outside the accepted range of 0.01 mL to 225 mL.", say.Error((await NoteAsync(shop, Some.Dose() with { Amount = 300 })).Refused()));
        (await NoteAsync(shop, Some.Dose())).Done();
        Assert.Equal(
            "Time of the dose: the label of Biocide B-20 asks for more time between two doses. The accepted range begins 6 Mar 2026, 08:00.",
            say.Error((await NoteAsync(shop, Some.Dose())).Refused()));
    }

    // 96 hours between two doses of the product; another product does not count, nor do its capitals.
    [Theory, EachDatabase]
    public async Task HandleAsync_TooSoonAfterTheLast_WaitsOutTheLabel(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        (await NoteAsync(shop, Some.Dose())).Done();
        var earliest = Some.Start.AddHours(96);
        shop.Clock.SetUtcNow(new DateTimeOffset(earliest.AddMinutes(-1)));
        var again = Some.Dose() with { Product = "BIOCIDE b-20", GivenAtUtc = shop.Now };
        var tooSoon = new FieldError(DoseFields.GivenAt, FieldProblem.TooSoon, Detail: "Biocide B-20", EarliestUtc: earliest);

        Assert.Equal(tooSoon, (await NoteAsync(shop, again)).Field());
        Assert.Equal(tooSoon, (await NoteAsync(shop, again with { Kind = DoseKind.Cleaner, LabelHours = null })).Field());
        Assert.Equal(tooSoon, (await NoteAsync(shop, again with { GivenAtUtc = Some.Start.AddHours(-1) })).Field());
        (await NoteAsync(shop, again with { Id = Some.Id(), Product = "Fungicide F-5", Kind = DoseKind.Fungicide })).Done();

        shop.Clock.Advance(TimeSpan.FromMinutes(1));
        (await NoteAsync(shop, again with { GivenAtUtc = shop.Now })).Done();
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_OtherSpellingOfAKnownProduct_MeansThatAndOtherNamesDoNot(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        (await NoteAsync(shop, Some.Dose())).Done();
        string[] spellings = ["BIOCIDE B-20", "  biocide\u00a0 b-20 ", "\uff22iocide B-\uff12\uff10"];

        foreach (var spelling in spellings)
        {
            Assert.Equal(FieldProblem.TooSoon, (await NoteAsync(shop, Some.Dose() with { Product = spelling, GivenAtUtc = Some.Start.AddHours(-1) })).Field().Problem);
        }

        shop.Clock.Advance(TimeSpan.FromHours(96));
        foreach (var spelling in spellings)
        {
            (await NoteAsync(shop, Some.Dose() with { Product = spelling, GivenAtUtc = shop.Now })).Done();
            shop.Clock.Advance(TimeSpan.FromHours(96));
        }

        (await NoteAsync(shop, Some.Dose() with { Product = "Biocide B-2O", GivenAtUtc = shop.Now })).Done();
        Assert.Equal(["Biocide B-20", "Biocide B-2O"], (await shop.ReadAsync(db => db.Doses.Select(d => d.Product).Distinct().ToListAsync())).Order(StringComparer.Ordinal));
    }

    // The label allows 225 mL; and within 96 hours of the dose before none at all.
    [Theory, EachDatabase]
    public async Task HandleAsync_GivenAllTheSame_IsNotedByASupervisorWithTheReasonAndByNobodyElse(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var tooMuch = Some.Dose() with { Amount = 300, AgainstLabelReason = " Poured twice " };

        Assert.Equal(DoseFields.Amount, (await NoteAsync(shop, tooMuch)).Field().Field);
        Assert.Equal(DoseFields.Amount, (await SuperviseAsync(shop, tooMuch with { AgainstLabelReason = " " })).Field().Field);
        Assert.Equal(FieldProblem.TooLong, (await SuperviseAsync(shop, tooMuch with { AgainstLabelReason = new string('x', 501) })).Field().Problem);
        Assert.Equal(2m, (await SuperviseAsync(shop, tooMuch)).Done().Reached);
        Assert.False((await SuperviseAsync(shop, tooMuch)).Done().IsNew);
        Assert.Equal(new OtherContentForId(tooMuch.Id), (await SuperviseAsync(shop, tooMuch with { AgainstLabelReason = "Said otherwise" })).Refused());
        (await SuperviseAsync(shop, Some.Dose() with { GivenAtUtc = Some.Start.AddMinutes(-5), AgainstLabelReason = "Nobody knew of the first" })).Done();
        shop.Clock.Advance(TimeSpan.FromHours(96));
        (await SuperviseAsync(shop, Some.Dose() with { GivenAtUtc = shop.Now, AgainstLabelReason = "Not needed" })).Done();

        Assert.Equal(["Nobody knew of the first", "Poured twice", null], await shop.ReadAsync(db => db.Doses.OrderBy(d => d.GivenAtUtc).Select(d => d.AgainstLabelReason).ToListAsync()));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // Between two doses 200 hours apart: what keeps 96 hours to the first keeps them to the second, too.
    // Whoever notes it all the same must have been told of both.
    [Theory, EachDatabase]
    public async Task HandleAsync_TooSoonAndTooMuch_SaysBoth(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        (await NoteAsync(shop, Some.Dose())).Done();

        var faults = (await NoteAsync(shop, Some.Dose() with { Amount = 1800 })).Fields();

        Assert.Equal([(DoseFields.GivenAt, FieldProblem.TooSoon, null), (DoseFields.Amount, FieldProblem.OutOfRange, 225m)], faults.Select(e => (e.Field, e.Problem, e.High)));
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_TooSoonButEnteredLate_NamesTheFirstTimeThatFits(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        (await NoteAsync(shop, Some.Dose())).Done();
        shop.Clock.Advance(TimeSpan.FromHours(200));
        (await NoteAsync(shop, Some.Dose() with { GivenAtUtc = shop.Now })).Done();
        var between = Some.Dose() with { GivenAtUtc = Some.Start.AddHours(50) };

        Assert.Equal(Some.Start.AddHours(96), (await NoteAsync(shop, between)).Field().EarliestUtc);
        (await NoteAsync(shop, between with { GivenAtUtc = Some.Start.AddHours(96) })).Done();
    }

    // The label allows 225 mL in the sump and says nothing of a waiting time.
    [Theory, EachDatabase]
    public async Task HandleAsync_NoWaitingTime_DosesOfADayCountTogether(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var first = Some.Dose() with { LabelHours = 0 };
        (await NoteAsync(shop, first)).Done();

        Assert.Equal(new FieldError(DoseFields.Amount, FieldProblem.OutOfRange, 45.01m, 0.01m, 45, "mL"), (await NoteAsync(shop, first with { Id = Some.Id(), Amount = 45.01m })).Field());
        (await NoteAsync(shop, first with { Id = Some.Id(), Amount = 45 })).Done();
        Assert.Equal(Some.Start.AddDays(1), (await NoteAsync(shop, first with { Id = Some.Id(), Amount = 1 })).Field().EarliestUtc);

        shop.Clock.Advance(TimeSpan.FromDays(1));
        (await NoteAsync(shop, first with { Id = Some.Id(), GivenAtUtc = shop.Now })).Done();
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_DoseIsAskedForThirtyDaysAfterTheFill_AnEarlierOneLeavesItOpen(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Dose, basis: IntervalBasis.AfterFill, days: 30));

        (await NoteAsync(shop, Some.Dose() with { Product = "Defoamer D-1", Kind = DoseKind.Defoamer })).Done();

        Assert.Equal(TaskState.Open, (await shop.ReadAsync(db => db.CareTasks.SingleAsync(t => t.Kind == TaskKind.Dose))).State);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_NoSumpOrNothingInIt_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.SumpAsync(Some.Sump(Some.Id(), shop.AreaId, "S-08", "M-08"));

        Assert.Equal(new SumpNotFound("S-99"), (await NoteAsync(shop, Some.Dose() with { SumpTag = "S-99" })).Refused());
        Assert.Equal(new NoOpenCharge("S-08"), (await NoteAsync(shop, Some.Dose() with { SumpTag = "s-08" })).Refused());
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_DoseIsOnThePlan_EndsItAndPlansTheNext(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Dose, basis: IntervalBasis.FromLastDone, days: 14));
        var open = await shop.ReadAsync(db => db.CareTasks.SingleAsync(t => t.Kind == TaskKind.Dose));

        (await NoteAsync(shop, Some.Dose())).Done();

        var tasks = await shop.ReadAsync(db => db.CareTasks.Where(t => t.Kind == TaskKind.Dose).OrderBy(t => t.DueAtUtc).ToListAsync());
        Assert.Equal([TaskState.Done, TaskState.Open], tasks.Select(t => t.State));
        Assert.Equal((open.Id, Some.Operator.PersonId, await shop.ReadAsync(db => db.Doses.Select(d => (Guid?)d.Id).SingleAsync())), (tasks[0].Id, tasks[0].EndedByPersonId, tasks[0].EndedByDoseId));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_Dosed_TheChargeCannotHaveEndedBefore(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        (await NoteAsync(shop, Some.Dose())).Done();

        Assert.Equal(new FieldError("drainedAt", FieldProblem.BeforeTheLastEntry, EarliestUtc: Some.Start), (await shop.DrainAsync(Some.Start.AddHours(-1))).Field());
    }

    private static Task<Result<NotedDose>> NoteAsync(ShopFixture shop, NoteDose command) => shop.Get<NoteDoseHandler>().HandleAsync(command, Some.Operator, isSupervisor: false, Token);

    private static Task<Result<NotedDose>> SuperviseAsync(ShopFixture shop, NoteDose command) => shop.Get<NoteDoseHandler>().HandleAsync(command, Some.Supervisor, isSupervisor: true, Token);

    private static async Task RefusedAsync(ShopFixture shop, NoteDose command, FieldError error) => Assert.Equal(error, (await NoteAsync(shop, command)).Field());
}
