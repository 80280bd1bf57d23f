using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Rules.Tests.Scheduling;

/// <summary>March 2026: the 4th is a Wednesday, the 7th a Saturday. The shop is closed at weekends.</summary>
public sealed class CareScheduleTests
{
    private static readonly ShopCalendar Calendar = Some.Calendar();

    [Theory]
    [InlineData("2026-03-04", "2026-03-01", "2026-03-04")]
    [InlineData("2026-03-04", "2026-03-04", "2026-03-04")]
    [InlineData("2026-03-04", "2026-03-05", "2026-03-11")]
    [InlineData("2026-03-04", "2027-03-01", "2027-03-03")]
    public void NextDueDay_AnchoredNeverDone_FirstOfTheSeriesFromTheDayWanted(string anchor, string notBefore, string due) =>
        Assert.Equal(Day(due), CareSchedule.NextDueDay(Some.Step(anchor: Day(anchor)), null, Day(notBefore), Calendar));

    [Theory]
    [InlineData("2026-03-03", "2026-03-04")]
    [InlineData("2026-03-04", "2026-03-11")]
    [InlineData("2026-03-06", "2026-03-11")]
    [InlineData("2026-03-10", "2026-03-11")]
    public void NextDueDay_AnchoredDoneLate_SeriesDoesNotDrift(string lastDone, string due) =>
        Assert.Equal(Day(due), CareSchedule.NextDueDay(Some.Step(), Day(lastDone), Day(lastDone), Calendar));

    [Theory]
    [InlineData(ClosedDayPolicy.Earlier, "2026-03-06", "2026-03-13")]
    [InlineData(ClosedDayPolicy.Later, "2026-03-09", "2026-03-16")]
    [InlineData(ClosedDayPolicy.AsIs, "2026-03-07", "2026-03-14")]
    public void NextDueDay_AnchoredOnClosedDays_ShiftMovesTheShownDayOnly(ClosedDayPolicy policy, string first, string second)
    {
        var step = Some.Step(anchor: Day("2026-03-07"), closedDays: policy);

        Assert.Equal(Day(first), CareSchedule.NextDueDay(step, null, Day("2026-03-02"), Calendar));
        Assert.Equal(Day(second), CareSchedule.NextDueDay(step, Day(first), Day(first), Calendar));
    }

    [Theory]
    [InlineData(ClosedDayPolicy.Earlier, "2026-04-02")]
    [InlineData(ClosedDayPolicy.Later, "2026-04-07")]
    public void NextDueDay_LongClosure_ShiftsOverAllOfIt(ClosedDayPolicy policy, string due)
    {
        // Easter 2026: Friday the 3rd to Monday the 6th of April.
        var calendar = Some.Calendar(closedDays: [Day("2026-04-03"), Day("2026-04-06")]);

        Assert.Equal(Day(due), CareSchedule.NextDueDay(Some.Step(anchor: Day("2026-04-05"), closedDays: policy), null, Day("2026-04-01"), calendar));
    }

    [Fact]
    public void NextDueDay_LaterPolicyFromAClosedDay_KeepsTheItemOfTheClosedDayBefore() =>
        Assert.Equal(Day("2026-03-09"), CareSchedule.NextDueDay(Some.Step(anchor: Day("2026-03-07")), null, Day("2026-03-08"), Calendar));

    [Fact]
    public void NextDueDay_DailyOverAWeekend_PlansMondayOnce()
    {
        var step = Some.Step(intervalDays: 1, anchor: Day("2026-03-02"));

        Assert.Equal(Day("2026-03-09"), CareSchedule.NextDueDay(step, Day("2026-03-06"), Day("2026-03-06"), Calendar));
        Assert.Equal(Day("2026-03-10"), CareSchedule.NextDueDay(step, Day("2026-03-09"), Day("2026-03-09"), Calendar));
    }

    [Theory]
    [InlineData("2028-01-31", "2028-03-01")]
    [InlineData("2027-01-31", "2027-03-02")]
    [InlineData("2026-12-15", "2027-01-14")]
    public void NextDueDay_ThirtyDays_CountsDaysOverMonthEndsAndLeapDays(string anchor, string due)
    {
        var step = Some.Step(intervalDays: 30, anchor: Day(anchor), closedDays: ClosedDayPolicy.AsIs);

        Assert.Equal(Day(due), CareSchedule.NextDueDay(step, Day(anchor), Day(anchor), Calendar));
    }

    [Theory]
    [InlineData("2026-03-04", "2026-03-11")]
    [InlineData("2026-03-06", "2026-03-13")]
    [InlineData("2026-03-07", "2026-03-16")]
    public void NextDueDay_FromLastDone_CountsFromThatDay(string lastDone, string due) =>
        Assert.Equal(Day(due), CareSchedule.NextDueDay(Some.Step(basis: IntervalBasis.FromLastDone), Day(lastDone), Day(lastDone), Calendar));

    [Theory]
    [InlineData("2026-03-02", "2026-03-04")]
    [InlineData("2026-03-10", "2026-03-10")]
    public void NextDueDay_FromLastDoneNeverDone_IsTheAnchorOrToday(string notBefore, string due) =>
        Assert.Equal(Day(due), CareSchedule.NextDueDay(Some.Step(basis: IntervalBasis.FromLastDone), null, Day(notBefore), Calendar));

    [Fact]
    public void NextDueDay_FromLastDoneMovedEarlier_NeverFallsBackToADayDone()
    {
        var step = Some.Step(basis: IntervalBasis.FromLastDone, intervalDays: 1, closedDays: ClosedDayPolicy.Earlier);

        Assert.Equal(Day("2026-03-09"), CareSchedule.NextDueDay(step, Day("2026-03-06"), Day("2026-03-06"), Calendar));
    }

    [Fact]
    public void NextDueDay_NoOpenDayAtAll_StaysAsItIs()
    {
        var never = Some.Calendar(closed: Enum.GetValues<DayOfWeek>());

        Assert.Equal(Day("2026-03-04"), CareSchedule.NextDueDay(Some.Step(), null, Day("2026-03-01"), never));
    }

    // Done on the closed day itself, the item of that day is done, and is not asked for again on the Monday that stands for it.
    [Theory]
    [InlineData(0, "2026-03-16")]
    [InlineData(1, "2026-04-07")]
    public void NextDueDay_LaterPolicyDoneOnTheClosedDay_IsTheItemAfterIt(int months, string due)
    {
        var step = Some.Step(anchor: Day("2026-03-07")) with { IntervalMonths = months };

        Assert.Equal(Day(due), CareSchedule.NextDueDay(step, Day("2026-03-07"), Day("2026-03-07"), Calendar));
    }

    [Fact]
    public void NextDueDay_IntervalOfOneMonth_NeedsNoDays() =>
        Assert.Equal(Day("2026-03-04"), CareSchedule.NextDueDay(Some.Step(intervalDays: 0) with { IntervalMonths = 1 }, null, Day("2026-03-01"), Calendar));

    [Fact]
    public void NextDueDay_NoInterval_IsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => CareSchedule.NextDueDay(Some.Step(intervalDays: 0), null, Day("2026-03-04"), Calendar));

    [Theory]
    [InlineData("2026-03-09T08:00:00Z", "2026-03-18")]
    [InlineData("2026-03-11T08:00:00Z", "2026-03-18")]
    [InlineData("2026-03-13T08:00:00Z", "2026-03-18")]
    [InlineData("2026-03-18T08:00:00Z", "2026-03-25")]
    public void After_AnchoredItemDoneEarlyOrLate_NextIsStrictlyAfterIt(string doneAt, string due)
    {
        var item = Some.Task(TaskKind.Test, CareSchedule.CauseOf(Some.StepId), CareSchedule.DueAt(Day("2026-03-11"), Calendar));

        var next = CareSchedule.After(Some.Step(), item, Instant(doneAt), Calendar);

        Assert.Equal(CareSchedule.DueAt(Day(due), Calendar), next.DueAt);
    }

    // A step from last done follows the day on which it was done, however far off its item was.
    [Theory]
    [InlineData("2026-03-04T08:00:00Z", "2026-03-05")]
    [InlineData("2026-03-13T08:00:00Z", "2026-03-16")]
    public void After_FromLastDoneDoneEarlyOrLate_NextFollowsTheDayDone(string doneAt, string due)
    {
        var step = Some.Step(basis: IntervalBasis.FromLastDone, intervalDays: 1);
        var item = Some.Task(TaskKind.Test, CareSchedule.CauseOf(Some.StepId), CareSchedule.DueAt(Day("2026-03-11"), Calendar));

        Assert.Equal(CareSchedule.DueAt(Day(due), Calendar), CareSchedule.After(step, item, Instant(doneAt), Calendar).DueAt);
    }

    [Fact]
    public void After_ItemShownBeforeAClosedDayAndDoneEarly_IsNotPlannedTwice()
    {
        // The series falls on Sunday the 8th, shown on Friday the 6th, done on Thursday the 5th.
        var step = Some.Step(anchor: Day("2026-03-08"), closedDays: ClosedDayPolicy.Earlier);
        var item = Some.Task(TaskKind.Test, CareSchedule.CauseOf(Some.StepId), CareSchedule.DueAt(Day("2026-03-06"), Calendar));

        Assert.Equal(CareSchedule.DueAt(Day("2026-03-13"), Calendar), CareSchedule.After(step, item, Instant("2026-03-05T08:00:00Z"), Calendar).DueAt);
    }

    [Theory]
    [InlineData("2026-03-04T08:00:00Z", false)]
    [InlineData("2026-03-05T04:59:59Z", false)]
    [InlineData("2026-03-05T05:00:00Z", true)]
    [InlineData("2026-03-20T08:00:00Z", true)]
    public void CountsFor_WeeklyItem_OnlyFromTheDayAfterTheOneBefore(string doneAt, bool counts)
    {
        var item = Some.Task(TaskKind.Test, CareSchedule.CauseOf(Some.StepId), CareSchedule.DueAt(Day("2026-03-11"), Calendar));

        Assert.Equal(counts, CareSchedule.CountsFor(Some.Step(), item, Instant(doneAt), Calendar));
    }

    // The shop is closed from the 6th to the 20th of August: the item of the 20th is shown on the 5th, half a month after the one of 20 July.
    [Fact]
    public void FirstDayThatCounts_MonthlyItemShownBeforeALongClosure_IsTheDayAfterTheItemBefore()
    {
        var calendar = Some.Calendar(closedDays: [.. Enumerable.Range(6, 15).Select(day => new DateOnly(2026, 8, day))]);
        var step = Some.Step(anchor: Day("2026-01-20"), closedDays: ClosedDayPolicy.Earlier) with { IntervalMonths = 1 };

        Assert.Equal(Day("2026-08-05"), CareSchedule.NextDueDay(step, Day("2026-07-20"), Day("2026-07-21"), calendar));
        Assert.Equal(Day("2026-07-21"), CareSchedule.FirstDayThatCounts(step, Day("2026-08-05"), calendar));
    }

    private static DateOnly Day(string text) => DateOnly.ParseExact(text, "yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);

    private static DateTime Instant(string text) =>
        DateTime.Parse(text, System.Globalization.CultureInfo.InvariantCulture, System.Globalization.DateTimeStyles.AdjustToUniversal);
}
