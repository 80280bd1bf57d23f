using ShopFluids.Calculations.Upkeep;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Scheduling;
using ShopFluids.Rules.Shutdowns;

namespace ShopFluids.Rules.Tests.Shutdowns;

/// <summary>What a shutdown asks of a sump, and when. <see cref="Some.Now"/> is Wednesday, 4 March 2026; weekends are closed.</summary>
public sealed class ShutdownWorkTests
{
    private static readonly ShutdownLimits Thresholds = new();
    private static readonly ShutdownFacts TwoWeeks = new(Some.Id(700), new(2026, 3, 16), new(2026, 3, 29));

    // 16 March is a Monday. Closed days beside a shutdown are days on which the fluid stands as well.
    [Theory]
    [InlineData("2026-03-16", "2026-03-20", "2026-03-14", "2026-03-22")]
    [InlineData("2026-03-17", "2026-03-19", "2026-03-17", "2026-03-19")]
    [InlineData("2026-03-19", "2026-03-20", "2026-03-19", "2026-03-22")]
    public void WithClosedDaysAround_Shutdown_TakesInTheWeekEndsBesideIt(string first, string last, string from, string to)
    {
        static DateOnly Day(string text) => DateOnly.Parse(text, System.Globalization.CultureInfo.InvariantCulture);
        var shutdown = new ShutdownFacts(Some.Id(701), Day(first), Day(last));

        var stands = shutdown.WithClosedDaysAround(Closed(shutdown));

        Assert.Equal((Day(from), Day(to)), (stands.FirstDay, stands.LastDay));
        Assert.True(stands.Covers(shutdown));
    }

    [Fact]
    public void Plan_TwoWeeksOfAHealthySump_SkimsBeforeCirculatesAndTestsAfter()
    {
        var tasks = Plan(TwoWeeks, Advice(TwoWeeks.Days));

        Assert.Equal(
            [
                (TaskKind.Skim, ShutdownWork.BeforeOf(TwoWeeks.Id), new DateOnly(2026, 3, 13)),
                (TaskKind.Circulate, ShutdownWork.DuringOf(TwoWeeks.Id), new DateOnly(2026, 3, 18)),
                (TaskKind.Test, ShutdownWork.AfterOf(TwoWeeks.Id), new DateOnly(2026, 3, 30)),
            ],
            tasks.Select(t => (t.Kind, t.Cause, DayOf(t))));
        Assert.All(tasks, t => Assert.Equal((null, false), (t.StepId, t.FromRecipe)));
    }

    // One machine stands from Wednesday to Friday while the shop is open: the work before is due on the Tuesday.
    [Fact]
    public void Plan_ShutdownOfOpenDays_BeforeIsTheDayBeforeIt()
    {
        var shutdown = new ShutdownFacts(Some.Id(702), new(2026, 3, 18), new(2026, 3, 20));

        var tasks = ShutdownWork.Plan(shutdown, Advice(shutdown.Days), Thresholds, Some.Calendar(), Some.Now);

        Assert.Equal(new DateOnly(2026, 3, 17), DayOf(Assert.Single(tasks, t => ShutdownWork.IsBefore(t.Cause))));
    }

    [Theory]
    [InlineData(1, new[] { TaskKind.Skim })]
    [InlineData(2, new[] { TaskKind.Skim, TaskKind.Test })]
    [InlineData(3, new[] { TaskKind.Skim, TaskKind.Circulate, TaskKind.Test })]
    [InlineData(59, new[] { TaskKind.Skim, TaskKind.Circulate, TaskKind.Test })]
    [InlineData(60, new[] { TaskKind.DrainClean })]
    public void Plan_AtEachThreshold_AsksForItsWork(int days, TaskKind[] expected)
    {
        var shutdown = new ShutdownFacts(Some.Id(700), new(2026, 3, 16), new DateOnly(2026, 3, 15).AddDays(days));

        Assert.Equal(expected, Plan(shutdown, Advice(days)).Select(t => t.Kind));
    }

    [Fact]
    public void Plan_FlaggedSump_TestsBeforeToo()
    {
        var flagged = Standing() with { OpenFlags = [Some.Flag("limit", ParameterCodes.Ph, Verdict.Warning, Direction.Low)] };

        var tasks = Plan(TwoWeeks, Advice(TwoWeeks.Days, flagged));

        Assert.Contains(tasks, t => t.Kind == TaskKind.Test && ShutdownWork.IsBefore(t.Cause));
    }

    [Fact]
    public void Plan_NeverMeasured_TestsBefore()
    {
        var tasks = Plan(TwoWeeks, Advice(TwoWeeks.Days, Some.Standing(), volumeLitres: null));

        Assert.Contains(tasks, t => t.Kind == TaskKind.Test && ShutdownWork.IsBefore(t.Cause));
    }

    [Fact]
    public void Plan_ConcentrationOutsideItsLimits_AdjustsBefore()
    {
        var lean = Some.Standing(latest: [(ParameterCodes.Concentration, Some.Latest(4.9m, Some.Now))]);

        Assert.Contains(Plan(TwoWeeks, Advice(TwoWeeks.Days, lean)), t => t.Kind == TaskKind.Adjust && ShutdownWork.IsBefore(t.Cause));
    }

    // 15 L a day evaporate by the charge's balance: of 250 L, 40 L would be left after 14 days, under the 80 L at the intake.
    [Fact]
    public void Plan_SumpThatEvaporatesBelowTheIntake_IsToppedUpBefore()
    {
        var history = new ChargeHistory([At(-4, 310, 6.0m), At(0, 250, 7.44m)], []);

        Assert.Contains(Plan(TwoWeeks, Advice(TwoWeeks.Days, history: history)), t => t.Kind == TaskKind.Adjust);
        Assert.DoesNotContain(Plan(TwoWeeks, Advice(TwoWeeks.Days)), t => t.Kind == TaskKind.Adjust);
    }

    // Two visits at one moment, or within a second: the later one counts. So much less than the first was there that the pump draws air.
    [Fact]
    public void Plan_TwoReadingsOfOneMoment_TakesTheLater()
    {
        var first = At(0, 310, 6.0m);
        var history = new ChargeHistory([At(-4, 310, 6.0m), first with { TakenAt = first.TakenAt.AddMilliseconds(-800) }, first, At(0, 250, 7.44m)], []);

        Assert.Contains(Plan(TwoWeeks, Advice(TwoWeeks.Days, history: history)), t => t.Kind == TaskKind.Adjust);
    }

    // 0.1 % for a day and none for a hundred: the plain mean is not too little for a balance, the mean over the time is.
    [Fact]
    public void Plan_NextToNoConcentrate_ReckonsWithoutABalance()
    {
        var history = new ChargeHistory([At(-100, 310, 0.1m), At(-99, 310, 0), At(0, 300, 0)], []);

        Assert.DoesNotContain(Plan(TwoWeeks, Advice(TwoWeeks.Days, history: history)), t => t.Kind == TaskKind.Adjust);
    }

    [Fact]
    public void Plan_MachineStandsAlready_WorkBeforeIsDueToday()
    {
        var running = new ShutdownFacts(Some.Id(700), new(2026, 3, 2), new(2026, 3, 20));

        var tasks = Plan(running, Advice(running.Days));

        Assert.Equal(new DateOnly(2026, 3, 4), DayOf(tasks.Single(t => t.Kind == TaskKind.Skim)));
        Assert.Equal(new DateOnly(2026, 3, 4), DayOf(tasks.Single(t => t.Kind == TaskKind.Circulate)));
    }

    [Fact]
    public void NextCirculation_AsLongAsTheMachineStands_ComesEveryThirdDay()
    {
        var days = new List<DateOnly>();
        var last = TwoWeeks.FirstDay.AddDays(-1);
        while (ShutdownWork.NextCirculation(TwoWeeks, last, Thresholds, Closed(TwoWeeks), Some.Now) is { } next)
        {
            days.Add(last = DayOf(next));
        }

        Assert.Equal([new(2026, 3, 18), new(2026, 3, 21), new(2026, 3, 24), new(2026, 3, 27)], days);
    }

    [Theory]
    [InlineData("2026-03-29T10:00Z", false)]
    [InlineData("2026-03-30T03:59Z", false)]
    [InlineData("2026-03-30T04:00Z", true)]
    [InlineData("2026-03-31T10:00Z", true)]
    public void Evaluate_TestAfterTheShutdown_IsDoneByAReadingFromTheFirstOpenDayOn(string takenAt, bool isDone)
    {
        var task = Some.Task(TaskKind.Test, ShutdownWork.AfterOf(TwoWeeks.Id), CareSchedule.DueAt(new(2026, 3, 30), Some.Calendar()));

        Assert.Equal(isDone ? [task.Id] : [], Evaluate(task, takenAt, 6m, 9m).DoneTasks);
    }

    [Theory]
    [InlineData(6.0, 9.0, true)]
    [InlineData(6.0, null, false)]
    [InlineData(null, 9.0, false)]
    public void Evaluate_TestBeforeTheShutdown_NeedsConcentrationAndPh(double? percent, double? ph, bool isDone)
    {
        var task = Some.Task(TaskKind.Test, ShutdownWork.BeforeOf(TwoWeeks.Id), CareSchedule.DueAt(new(2026, 3, 13), Some.Calendar()));

        Assert.Equal(isDone ? [task.Id] : [], Evaluate(task, "2026-03-10T10:00Z", (decimal?)percent, (decimal?)ph).DoneTasks);
    }

    [Theory]
    [InlineData(ParameterCodes.Concentration)]
    [InlineData(ParameterCodes.Ph)]
    public void Evaluate_TestBeforeTheShutdownButALaterValueIsKnown_StaysOpen(string known)
    {
        var task = Some.Task(TaskKind.Test, ShutdownWork.BeforeOf(TwoWeeks.Id), CareSchedule.DueAt(new(2026, 3, 13), Some.Calendar()));
        var reading = Some.Reading(Some.Measured(ParameterCodes.Concentration, 6), Some.Measured(ParameterCodes.Ph, 9));
        var standing = Some.Standing(tasks: [task], latest: [(known, Some.Latest(7, reading.TakenAt.AddHours(1)))]);

        Assert.Empty(RulesService.Evaluate(Some.Input(reading, standing)).DoneTasks);
    }

    // A second look at a pH is not done because concentration and pH were read: that is for its flag to say.
    [Fact]
    public void Evaluate_TestThatIsNotOfAShutdown_IsNotDoneByBoth()
    {
        var task = Some.Task(TaskKind.Test, "limit:nitrite");

        Assert.Empty(Evaluate(task, "2026-03-10T10:00Z", 6m, 9m).DoneTasks);
    }

    [Fact]
    public void IsBefore_EachCause_IsItsOwn()
    {
        var causes = ShutdownWork.CausesOf(TwoWeeks.Id);

        Assert.Equal([ShutdownWork.BeforeOf(TwoWeeks.Id), ShutdownWork.DuringOf(TwoWeeks.Id), ShutdownWork.AfterOf(TwoWeeks.Id)], causes);
        Assert.Equal([(true, false, false), (false, true, false), (false, false, true)], causes.Select(c => (ShutdownWork.IsBefore(c), ShutdownWork.IsDuring(c), ShutdownWork.IsAfter(c))));
    }

    [Theory]
    [InlineData("2026-03-16", "2026-03-29", true)]
    [InlineData("2026-03-17", "2026-03-28", true)]
    [InlineData("2026-03-15", "2026-03-29", false)]
    [InlineData("2026-03-16", "2026-03-30", false)]
    public void Covers_OtherShutdown_WithEveryDayOfIt(string first, string last, bool covers)
    {
        static DateOnly Day(string text) => DateOnly.Parse(text, System.Globalization.CultureInfo.InvariantCulture);

        Assert.Equal(covers, TwoWeeks.Covers(new ShutdownFacts(Some.Id(702), Day(first), Day(last))));
        Assert.Equal(14, TwoWeeks.Days);
    }

    // The last day of the shutdown itself still counts. Fluid that may not stand at all is moved every day.
    [Theory]
    [InlineData("2026-03-26", 3, "2026-03-29")]
    [InlineData("2026-03-27", 3, null)]
    [InlineData("2026-03-20", 0, "2026-03-21")]
    [InlineData("2026-02-20", 3, "2026-03-04")]
    public void NextCirculation_AfterTheLastTime_IsWithinTheShutdownAndNotInThePast(string last, int fromDays, string? next)
    {
        static DateOnly Day(string text) => DateOnly.Parse(text, System.Globalization.CultureInfo.InvariantCulture);
        var task = ShutdownWork.NextCirculation(TwoWeeks, Day(last), new ShutdownLimits(CirculateFromDays: fromDays), Closed(TwoWeeks), Some.Now);

        Assert.Equal(next is null ? (DateOnly?)null : Day(next), task is null ? null : DayOf(task));
    }

    [Theory]
    [InlineData("limit:ph")]
    [InlineData("shutdown-before:soon", true)]
    [InlineData("step:00000000-0000-0000-0000-000000000001")]
    public void ShutdownOf_OtherCause_IsNone(string cause, bool isCause = false) => Assert.Equal((isCause, (Guid?)null), (ShutdownWork.IsCause(cause), ShutdownWork.ShutdownOf(cause)));

    [Fact]
    public void ShutdownOf_ItsCauses_IsTheShutdown() =>
        Assert.All([ShutdownWork.BeforeOf(TwoWeeks.Id), ShutdownWork.DuringOf(TwoWeeks.Id), ShutdownWork.AfterOf(TwoWeeks.Id)], cause => Assert.Equal(TwoWeeks.Id, ShutdownWork.ShutdownOf(cause)));

    private static IReadOnlyList<ProposedTask> Plan(ShutdownFacts shutdown, ShutdownPlan plan) => ShutdownWork.Plan(shutdown, plan, Thresholds, Closed(shutdown), Some.Now);

    private static ShutdownPlan Advice(int days, StandingFacts? standing = null, double? volumeLitres = 250, ChargeHistory? history = null) =>
        ShutdownAdvice.For(days, Some.Sump(), Some.Fluid(), standing ?? Standing(), volumeLitres, history ?? ChargeHistory.Empty, [Some.Limits()], Thresholds);

    private static StandingFacts Standing() => Some.Standing(latest: [(ParameterCodes.Concentration, Some.Latest(6m, Some.Now))]);

    private static ShopCalendar Closed(ShutdownFacts shutdown) => Some.Calendar(closedDays: [.. Enumerable.Range(0, shutdown.Days).Select(shutdown.FirstDay.AddDays)]);

    private static DateOnly DayOf(ProposedTask task) => CareSchedule.DueDayOf(task.DueAt, Some.Calendar());

    private static ReadingFacts At(int days, decimal levelMm, decimal percent) =>
        new(Some.Id(800 + days), Some.Now.AddDays(days), [Some.Measured(ParameterCodes.Level, levelMm), Some.Measured(ParameterCodes.Concentration, percent)]);

    private static Evaluation Evaluate(OpenTask task, string takenAt, decimal? percent, decimal? ph)
    {
        var at = DateTime.Parse(takenAt, System.Globalization.CultureInfo.InvariantCulture, System.Globalization.DateTimeStyles.AdjustToUniversal);
        MeasurementFacts[] measured =
        [
            .. percent is { } p ? [Some.Measured(ParameterCodes.Concentration, p)] : Array.Empty<MeasurementFacts>(),
            .. ph is { } h ? [Some.Measured(ParameterCodes.Ph, h)] : Array.Empty<MeasurementFacts>(),
        ];
        return RulesService.Evaluate(Some.Input(new ReadingFacts(Some.Id(1), at, measured), Some.Standing(tasks: [task]), now: at));
    }
}
