using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Finds;
using ShopFluids.Core.Database;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sheets;
using ShopFluids.Core.Slides;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Sheets;

public sealed class HistorySheetQueryTests
{
    private static readonly DateOnly Today = new(2026, 3, 2);

    // Dipped at 08:00 in Berlin, to be read after 24 h and within 12 h more, read after 40 h.
    private const string Late = "Slide read 4 Mar 00:00, late: its window ended 3 Mar 20:00";

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task OfSumpAsync_NoPeriodNamed_BeginsWithTheChargeAndEndsToday(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        var sheets = (await QueryOf(shop).OfSumpAsync(Request(), Token)).Done();

        Assert.Equal((new DateOnly(2026, 2, 20), Today), (sheets.From, sheets.To));
        var sheet = Assert.Single(sheets.Sheets);
        Assert.Equal("20 Feb to 2 Mar 2026", sheet.Title.Period);
        Assert.Equal("S-07", sheet.Title.Tag);
        Assert.Equal("Hall 3", sheet.Title.Shop);
        Assert.Equal("Emulsion A", sheet.Head.Fluid);
        Assert.Equal("7.0 to 9.0 %", sheet.Head.WorkingConcentration);
        Assert.Equal("170.0 L", sheet.Head.FillVolume);
        Assert.Equal("150 mg/L", sheet.Head.MakeUpHardness);
        Assert.Null(sheet.Head.Biocide);
    }

    [Theory, EachDatabase]
    public async Task OfSumpAsync_EmptySump_TakesTheLastNinetyDays(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database, isFilled: false);

        var sheets = (await QueryOf(shop).OfSumpAsync(Request(), Token)).Done();

        Assert.Equal(Today.AddDays(-90), sheets.From);
        Assert.Null(sheets.Sheets[0].Charge);
        Assert.Empty(sheets.Sheets[0].Limits);
        Assert.Empty(sheets.Sheets[0].Readings.Rows);
    }

    [Theory, EachDatabase]
    public async Task OfSumpAsync_ReadingLateOnTheLastDay_IsOnTheSheet(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        // 23:30 in Berlin on 2 March, and 05:30 on 3 March: both belong to the shop day of 2 March; 06:30 does not.
        foreach (var at in new[] { 15.5, 21.5, 22.5 })
        {
            shop.Clock.SetUtcNow(new DateTimeOffset(Some.Start.AddHours(at)));
            await shop.StoreAsync(Some.Reading(takenAt: Some.Start.AddHours(at), note: $"after {at}"));
        }

        var sheet = (await QueryOf(shop).OfSumpAsync(Request(from: Today, to: Today), Token)).Done().Sheets[0];

        Assert.Equal(["after 21.5", "after 15.5"], sheet.Readings.Rows.Select(r => r.Remark));
        Assert.Equal("2 Mar 23:30", sheet.Readings.Rows[1].When);
    }

    [Theory, EachDatabase]
    public async Task OfSumpAsync_ReadingBeforeTheFirstDay_IsLeftOut(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(takenAt: Some.Start.AddDays(-3)));
        await shop.StoreAsync(Some.Reading());

        var sheet = (await QueryOf(shop).OfSumpAsync(Request(from: Today, to: Today), Token)).Done().Sheets[0];

        Assert.Single(sheet.Readings.Rows);
    }

    [Theory, EachDatabase]
    public async Task OfSumpAsync_CorrectedReading_StaysWithWhenByWhomAndWhy(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var person = Some.Id();
        (await shop.Get<Core.People.MakeAccountHandler>().HandleAsync(
            new Core.People.MakeAccount(person, "ostrey", "M. Ostrey", "long enough to pass", [Core.People.Roles.Supervisor], "light"), Some.Supervisor, Token)).Done();
        var wrong = Some.Reading(brix: 12.4m, takenAt: Some.Start.AddMinutes(-30));
        await shop.StoreAsync(wrong);
        await shop.StoreAsync(
            Some.Reading(brix: 8.3m, takenAt: Some.Start.AddMinutes(-20), supersedes: wrong.Id, reason: "concentration typed in place of the scale"),
            new Core.Record.Actor(person, "M. Ostrey"));

        var sheet = (await QueryOf(shop).OfSumpAsync(Request(), Token)).Done().Sheets[0];

        Assert.Equal(2, sheet.Readings.Rows.Count);
        Assert.Null(sheet.Readings.Rows[0].Superseded);
        Assert.Equal("superseded 2 Mar 08:00 by M. Ostrey: concentration typed in place of the scale", sheet.Readings.Rows[1].Superseded);
        Assert.Contains(sheet.Trends.Charts[0].Points, p => p.IsSuperseded);
        Assert.EndsWith("reading superseded", Assert.Single(sheet.Flags).Ended, StringComparison.Ordinal);
    }

    [Theory, EachDatabase]
    public async Task OfSumpAsync_SlideReadAfterItsWindow_IsMarkedAlsoWhereItWasCorrected(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var late = await ReadSlideAsync(40, 4);
        await ReadSlideAsync(30, 3);
        await shop.StoreAsync(Some.ReadingOf(Some.Typed(ParameterCodes.Bacteria, 5)) with { Id = Some.Id(), SupersedesId = late, CorrectionReason = "Wrong chart" });

        var rows = (await QueryOf(shop).OfSumpAsync(Request(), Token)).Done().Sheets[0].Readings.Rows;

        Assert.Equal(3, rows.Count);
        Assert.Equal(["", Late, Late], rows.Select(r => r.Remark).Order(StringComparer.Ordinal));

        async Task<Guid> ReadSlideAsync(int afterHours, decimal value)
        {
            var (slide, reading) = (Some.Id(), Some.Id());
            (await shop.Get<StartSlideHandler>().HandleAsync(new(slide, Some.SumpTag, ParameterCodes.Bacteria, SlideIncubation.Incubator, shop.Now), Some.Operator, Token)).Done();
            shop.Clock.Advance(TimeSpan.FromHours(afterHours));
            (await shop.Get<EndSlideHandler>().HandleAsync(new(slide, new(reading, shop.Now, value)), Some.Operator, Token)).Done();
            return reading;
        }
    }

    [Theory, EachDatabase]
    public async Task OfSumpAsync_Readings_GiveScaleConcentrationLevelAndVolume(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 6.5m));

        var readings = (await QueryOf(shop).OfSumpAsync(Request(), Token)).Done().Sheets[0].Readings;

        Assert.Equal(["Scale", "Concentration %", "pH", "Level mm", "Volume L"], readings.Columns.Select(c => c.Heading));
        var row = Assert.Single(readings.Rows);
        Assert.Equal(["6.5", "6.5", "9.0", "300", "150.0"], row.Cells.Select(c => c.Text));
        Assert.Equal((Verdict.Warning, Direction.Low), (row.Cells[1].Verdict, row.Cells[1].Direction));
        Assert.Equal("Warning, low", row.Verdict.Word);
    }

    [Theory, EachDatabase]
    public async Task OfSumpAsync_GermanCultureAndUsUnits_FormatsEveryQuantityInThem(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database, Some.Site(culture: "de-DE", units: UnitSystem.UsCustomary));
        await shop.StoreAsync(Some.Reading(brix: 8.4m));
        (await shop.AddAsync(Some.Addition(shop.LotId))).Done();

        var sheet = (await QueryOf(shop).OfSumpAsync(Request(), Token)).Done().Sheets[0];

        Assert.Equal("8,4", sheet.Readings.Rows[0].Cells[1].Text);
        Assert.Equal("11,81", sheet.Readings.Rows[0].Cells[3].Text);
        Assert.Equal("39,6", sheet.Readings.Rows[0].Cells[4].Text);
        Assert.Equal("Volume gal", sheet.Readings.Columns[4].Heading);
        Assert.Equal("44,9 gal", sheet.Head.FillVolume);
        Assert.Equal("2,64", sheet.Movements[0].WaterLitres);
        Assert.Equal("7,0", sheet.Trends.Charts[0].Format(7, 1));
    }

    [Theory, EachDatabase]
    public async Task OfSumpAsync_Dosed_StandsAmongAdditionsAndRemovals(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        (await shop.AddAsync(Some.Addition(shop.LotId, at: Some.Start.AddHours(-1)))).Done();
        (await shop.Get<NoteDoseHandler>().HandleAsync(Some.Dose(), Some.Operator, isSupervisor: false, Token)).Done();

        var sheet = (await QueryOf(shop).OfSumpAsync(Request(), Token)).Done().Sheets[0];

        Assert.Equal(["dose", "top-up", "fill"], sheet.Movements.Select(m => m.What));
        Assert.Equal(
            new HistorySheetMovement("2 Mar 08:00", "dose", "", "", "", "", "", "180 mL Biocide B-20 (biocide) for 150.0 L: 1.2 mL/L, label at most 1.5 mL/L. Re-entry from 2 Mar 2026, 12:00. Smell on Monday"),
            sheet.Movements[0]);
    }

    [Theory, EachDatabase]
    public async Task OfSumpAsync_DoseStruckOut_StandsWithWhy(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Dose, basis: IntervalBasis.FromLastDone, days: 14));
        var dose = Some.Dose();
        (await shop.Get<NoteDoseHandler>().HandleAsync(dose, Some.Operator, isSupervisor: false, Token)).Done();
        (await shop.Get<StrikeDoseHandler>().HandleAsync(new(Some.Id(), dose.Id, "Wrong sump"), Some.Supervisor, Token)).Done();

        var sheet = (await QueryOf(shop).OfSumpAsync(Request(), Token)).Done().Sheets[0];

        Assert.Equal(("dose", "Struck out 2 Mar 08:00 by : Wrong sump"), (sheet.Movements[0].What, sheet.Movements[0].StruckOut));
        Assert.Equal([Texts.Sheet_TaskOpen, Texts.Sheet_TaskDoseStruck], sheet.Tasks.Select(t => t.Done));
    }

    [Theory, EachDatabase]
    public async Task OfSumpAsync_MovementsAndLots_NameTheLotAndWhatWasDrawn(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(levelMm: 200));
        (await shop.AddAsync(Some.Addition(shop.LotId, water: 10, concentrate: 1.5m, removed: 4))).Done();

        var sheet = (await QueryOf(shop).OfSumpAsync(Request(), Token)).Done().Sheets[0];

        Assert.Equal(["top-up", "removal", "fill"], sheet.Movements.Select(m => m.What));
        Assert.Equal(("10.0", "1.5", "L-1"), (sheet.Movements[0].WaterLitres, sheet.Movements[0].ConcentrateLitres, sheet.Movements[0].Lot));
        Assert.Equal("4.0", sheet.Movements[1].RemovedLitres);
        var lot = Assert.Single(sheet.Lots);
        Assert.Equal(("L-1", "Emulsion A", "1 Feb 2027", "13.5"), (lot.Lot, lot.Fluid, lot.Expiry, lot.DrawnLitres));
        Assert.Equal(("138.0 L", "12.0 L"), (sheet.Charge?.WaterFilled, sheet.Charge?.ConcentrateFilled));
        Assert.Equal(("1", "L-1", "10.0 L", "1.5 L", "4.0 L"), (sheet.Charge?.Number, sheet.Charge?.FillLot, sheet.Charge?.WaterAdded, sheet.Charge?.ConcentrateAdded, sheet.Charge?.Removed));
    }

    [Theory, EachDatabase]
    public async Task OfSumpAsync_LimitsChangedInThePeriod_BothVersionsStandAndTheChartSteps(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var tighter = new ParameterLimits(ParameterCodes.Concentration, LimitBasis.Value, 6, 7.5m, 7.5m, 8.5m, 8.5m, 10, false, 0.2m);
        (await shop.Get<SetLimitsHandler>().HandleAsync(new SetLimits(Some.Id(), null, shop.SumpId, Some.Start.AddDays(-2), [tighter]), Some.Supervisor, Token)).Done();

        var sheet = (await QueryOf(shop).OfSumpAsync(Request(), Token)).Done().Sheets[0];

        Assert.Equal(2, sheet.Limits.Count);
        Assert.Null(sheet.Limits[0].ValidTo);
        Assert.Equal("7.5 to 8.5", sheet.Limits[0].Rows[0].Target);
        Assert.Equal("28 Feb 2026", sheet.Limits[1].ValidTo);
        Assert.Equal("7.0 to 9.0", sheet.Limits[1].Rows[0].Target);
        Assert.Equal([7.0, 7.5], sheet.Trends.Charts[0].Limits.Select(l => l.TargetLow ?? 0));
    }

    [Theory, EachDatabase]
    public async Task OfSumpAsync_TasksAndFlags_SayHowTheyEndedAndByWhom(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var outcome = await shop.StoreAsync(Some.Reading(brix: 6.5m, levelMm: null));
        (await shop.Get<EndTaskHandler>().HandleAsync(new EndTask(outcome.Made[0].Id, TaskState.Skipped, "next shift tops up"), Some.Supervisor, isSupervisor: true, Token)).Done();
        await shop.StepAsync(Some.Step(TaskKind.Skim));
        var skim = await shop.ReadAsync(db => Task.FromResult(db.CareTasks.Single(t => t.Kind == TaskKind.Skim).Id));
        (await shop.Get<EndTaskHandler>().HandleAsync(new EndTask(skim, TaskState.Done, Found: new(FindNames.OilLitres, 1.5m, "belt worn")), Some.Supervisor, isSupervisor: true, Token)).Done();
        shop.Clock.Advance(TimeSpan.FromHours(1));
        await shop.StoreAsync(Some.Reading(takenAt: Some.Start.AddHours(1)));

        var sheet = (await QueryOf(shop).OfSumpAsync(Request(), Token)).Done().Sheets[0];

        Assert.Equal("2 Mar 09:00 by reading", Assert.Single(sheet.Flags).Ended);
        Assert.Contains(sheet.Tasks, t => t.What == "Skim the tramp oil: 1.5 L of oil taken off; belt worn");
        Assert.Contains(sheet.Tasks, t => t.Done == "skipped" && t.What.EndsWith(": next shift tops up", StringComparison.Ordinal));
    }

    [Theory, EachDatabase]
    public async Task OfSumpAsync_UnusualAddition_SaysWhatWasUnusual(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        (await shop.AddAsync(Some.Addition(shop.LotId, water: 0, concentrate: 1))).Done();

        Assert.Equal("concentrate without water", (await QueryOf(shop).OfSumpAsync(Request(), Token)).Done().Sheets[0].Movements[0].Remark);
    }

    // What a flag asked for and nobody did: on the sheet of a past period it was not known yet how it would end.
    [Theory, EachDatabase]
    public async Task OfSumpAsync_WorkStillOpen_StandsFirstWithHowLateItIs(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 4.0m));
        shop.Clock.Advance(TimeSpan.FromDays(2));

        var sheet = (await QueryOf(shop).OfSumpAsync(Request(), Token)).Done().Sheets[0];

        Assert.Equal(("2 Mar", "Adjust"), (sheet.Tasks[0].Due, sheet.Tasks[0].What));
        Assert.Matches("^open, [12] days? late$", sheet.Tasks[0].Done);
    }

    // Nobody read anything: that the test is late no more is no finding.
    [Theory, EachDatabase]
    public async Task OfSumpAsync_LateTestIsRedated_SaysToWhichDayAndWhyTheFlagEnded(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test));
        shop.Clock.Advance(TimeSpan.FromDays(2));
        await shop.Get<NoticeOverdueHandler>().HandleAsync(Token);
        var test = await shop.ReadAsync(db => Task.FromResult(db.CareTasks.Single().Id));
        (await shop.Get<RedateTaskHandler>().HandleAsync(new RedateTask(test, new DateOnly(2026, 3, 12), "Spindle is out"), Some.Supervisor, Token)).Done();

        var sheet = (await QueryOf(shop).OfSumpAsync(Request(), Token)).Done().Sheets[0];

        Assert.Equal("4 Mar 08:00, no test late any more", Assert.Single(sheet.Flags).Ended);
        Assert.Contains(sheet.Tasks, t => (t.Due, t.Done) == ("2 Mar", "re-dated to 12 Mar"));
    }

    // A warning that becomes an action has not cleared.
    [Theory, EachDatabase]
    public async Task OfSumpAsync_FlagGaveWayToAWorse_IsReplacedNotCleared(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 6.5m, levelMm: null));
        shop.Clock.Advance(TimeSpan.FromHours(1));
        await shop.StoreAsync(Some.Reading(brix: 4m, levelMm: null, takenAt: shop.Now));
        shop.Clock.Advance(TimeSpan.FromHours(1));
        await shop.StoreAsync(Some.Reading(levelMm: null, takenAt: shop.Now));

        var flags = (await QueryOf(shop).OfSumpAsync(Request(), Token)).Done().Sheets[0].Flags;

        Assert.Equal(["2 Mar 10:00 by reading", "2 Mar 09:00, replaced by Action, low"], flags.Select(f => f.Ended));
    }

    // A sheet is read long after: how late the test was is said as of when it was noticed, which stays true.
    [Theory, EachDatabase]
    public async Task OfSumpAsync_OverdueTest_SaysHowLateItWasWhenNoticed(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test));
        shop.Clock.Advance(TimeSpan.FromDays(1));
        await shop.Get<Core.Flags.NoticeOverdueHandler>().HandleAsync(Token);
        shop.Clock.Advance(TimeSpan.FromDays(5));

        var flag = Assert.Single((await QueryOf(shop).OfSumpAsync(Request(to: Today.AddDays(6)), Token)).Done().Sheets[0].Flags);

        Assert.Equal("A test was not done when it was due: 1 shop day late when noticed.", flag.Reason);
    }

    [Theory, EachDatabase]
    public async Task OfSumpAsync_Origin_NamesTheLastRecordEntryAndWhoPrinted(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading());
        var head = await shop.ReadAsync(db => Task.FromResult(db.RecordHead.Single()));

        var origin = (await QueryOf(shop).OfSumpAsync(Request(), Token)).Done().Sheets[0].Origin;

        Assert.Equal((head.Hash, $"{head.Sequence}"), (origin.Fingerprint, origin.RecordEntry));
        Assert.Equal(("An auditor", "2 Mar 2026, 08:00", "Europe/Berlin"), (origin.PrintedBy, origin.PrintedAt, origin.TimeZone));
    }

    [Theory, EachDatabase]
    public async Task OfMachineAsync_KnownAndUnknownMachine_GivesItsSumpsOrRefuses(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        var sheets = (await QueryOf(shop).OfMachineAsync(Request(tag: "m-07"), Token)).Done();

        Assert.Equal("M-07", sheets.Tag);
        Assert.Equal("S-07", Assert.Single(sheets.Sheets).Title.Tag);
        Assert.IsType<MachineNotFound>((await QueryOf(shop).OfMachineAsync(Request(tag: "M-99"), Token)).Refused());
    }

    [Theory, EachDatabase]
    public async Task OfSumpAsync_WrongRequest_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var query = QueryOf(shop);

        Assert.IsType<SumpNotFound>((await query.OfSumpAsync(Request(tag: "S-99"), Token)).Refused());
        Assert.IsType<PeriodNotValid>((await query.OfSumpAsync(Request(from: Today, to: Today.AddDays(-1)), Token)).Refused());
        Assert.IsType<PeriodNotValid>((await query.OfSumpAsync(Request(from: new DateOnly(26, 3, 2), to: Today), Token)).Refused());
    }

    private static HistorySheetRequest Request(string tag = Some.SumpTag, DateOnly? from = null, DateOnly? to = null) => new(tag, from, to, "An auditor");

    private static HistorySheetQuery QueryOf(ShopFixture shop) => new(shop.Get<ShopDatabase>(), shop.Get<SetupCache>(), shop.Get<ShopClock>());
}
