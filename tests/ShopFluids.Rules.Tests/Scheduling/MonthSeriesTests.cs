using System.Globalization;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Rules.Tests.Scheduling;

/// <summary>Series of months: a day that a month does not have is its last, counted from the anchor and never drifting.</summary>
public sealed class MonthSeriesTests
{
    private static readonly ShopCalendar EveryDay = Some.Calendar(closed: []);

    [Fact]
    public void After_MonthlyOnThe31st_ClampsFromTheAnchor()
    {
        var rows = Vector.Rows("month_end_policy.csv");
        Assert.Equal(5, rows.Count);
        Assert.Equal(rows.Select(r => Day(r[2])), Series(Some.Step(anchor: Day(rows[0][2]), closedDays: ClosedDayPolicy.AsIs) with { IntervalMonths = 1 }, rows.Count));
    }

    // The examples of RFC 5545, 3.8.5.3, that a step can say: every so many days or weeks.
    [Theory]
    [InlineData("FREQ=DAILY;INTERVAL=10;COUNT=5", 10)]
    [InlineData("FREQ=WEEKLY;COUNT=10", 7)]
    [InlineData("FREQ=WEEKLY;UNTIL=19971224 (17 occurrences)", 7)]
    public void After_DaysAndWeeks_AgreeWithRfc5545(string rule, int intervalDays)
    {
        var row = Assert.Single(Vector.Rows("rrule_rfc5545.csv"), r => r[0] == rule);
        var days = row[2].Split(';').Select(Day).ToList();

        Assert.Equal(days, Series(Some.Step(intervalDays: intervalDays, anchor: Day(row[1]), closedDays: ClosedDayPolicy.AsIs), days.Count));
    }

    [Theory]
    [InlineData(3, "2026-11-30", "2027-02-28,2027-05-30,2027-08-30,2027-11-30,2028-02-29")]
    [InlineData(12, "2028-02-29", "2029-02-28,2030-02-28,2031-02-28,2032-02-29")]
    [InlineData(18, "1997-09-10", "1999-03-10,2000-09-10,2002-03-10")]
    public void After_SeveralMonths_KeepsTheDayOfTheAnchor(int months, string anchor, string next)
    {
        var expected = next.Split(',').Select(Day).ToList();

        Assert.Equal(expected, Series(Some.Step(anchor: Day(anchor), closedDays: ClosedDayPolicy.AsIs) with { IntervalMonths = months }, expected.Count + 1)[1..]);
    }

    [Theory]
    [InlineData("2026-01-31", "2026-02-28")]
    [InlineData("2028-01-31", "2028-02-29")]
    [InlineData("2026-02-28", "2026-03-28")]
    public void NextDueDay_MonthFromLastDone_IsTheSameDayOfTheNextMonthOrItsLast(string done, string due) =>
        Assert.Equal(Day(due), CareSchedule.NextDueDay(Some.Step(basis: IntervalBasis.FromLastDone, closedDays: ClosedDayPolicy.AsIs) with { IntervalMonths = 1 }, Day(done), Day(done), EveryDay));

    // Closed at weekends: 28 February 2026 is a Saturday. The shift moves the day shown, not the series.
    [Theory]
    [InlineData(ClosedDayPolicy.Earlier, "2026-02-27", "2026-03-31")]
    [InlineData(ClosedDayPolicy.Later, "2026-03-02", "2026-03-31")]
    public void After_MonthEndOnAClosedDay_ShiftsTheShownDayOnly(ClosedDayPolicy policy, string shown, string next)
    {
        var calendar = Some.Calendar();
        var step = Some.Step(anchor: Day("2026-01-31"), closedDays: policy) with { IntervalMonths = 1 };

        Assert.Equal(Day(shown), CareSchedule.NextDueDay(step, Day("2026-02-02"), Day("2026-02-03"), calendar));
        var item = Some.Task(TaskKind.Test, CareSchedule.CauseOf(step.Id), CareSchedule.DueAt(Day(shown), calendar));
        Assert.Equal(Day(next), CareSchedule.DueDayOf(CareSchedule.After(step, item, item.DueAt.AddHours(-1), calendar).DueAt, calendar));
    }

    // Done on 31 January for January: the same visit must not do for 28 February, one on 1 February may.
    [Theory]
    [InlineData("2026-01-31", false)]
    [InlineData("2026-02-01", true)]
    [InlineData("2026-02-28", true)]
    public void CountsFor_FebruaryOfASeriesOnThe31st_BeginsAfterTheItemBefore(string done, bool counts)
    {
        var step = Some.Step(anchor: Day("2025-12-31"), closedDays: ClosedDayPolicy.AsIs) with { IntervalMonths = 1 };
        var item = Some.Task(TaskKind.Test, CareSchedule.CauseOf(step.Id), CareSchedule.DueAt(Day("2026-02-28"), EveryDay));

        Assert.Equal(counts, CareSchedule.CountsFor(step, item, EveryDay.StartOf(Day(done)), EveryDay));
    }

    // 28 February 2026 is a Saturday; moved earlier it is shown on the 27th. What was done on 31 January is not done again on that day.
    [Theory]
    [InlineData(ClosedDayPolicy.AsIs, "2026-02-28", "2026-01-31", false)]
    [InlineData(ClosedDayPolicy.AsIs, "2026-02-28", "2026-02-01", true)]
    [InlineData(ClosedDayPolicy.Earlier, "2026-02-27", "2026-01-31", false)]
    [InlineData(ClosedDayPolicy.Earlier, "2026-02-27", "2026-02-02", true)]
    [InlineData(ClosedDayPolicy.Later, "2026-03-02", "2026-01-31", false)]
    public void CountsFor_MonthFromLastDoneAtTheEndOfOne_BeginsAfterIt(ClosedDayPolicy policy, string due, string done, bool counts)
    {
        var calendar = Some.Calendar();
        var step = Some.Step(basis: IntervalBasis.FromLastDone, closedDays: policy) with { IntervalMonths = 1 };
        var item = Some.Task(TaskKind.Test, CareSchedule.CauseOf(step.Id), CareSchedule.DueAt(Day(due), calendar));

        Assert.Equal(Day(due), CareSchedule.NextDueDay(step, Day("2026-01-31"), Day("2026-02-01"), calendar));
        Assert.Equal(counts, CareSchedule.CountsFor(step, item, calendar.StartOf(Day(done)), calendar));
    }

    private static List<DateOnly> Series(CareStepFacts step, int count)
    {
        var days = new List<DateOnly> { step.Anchor };
        while (days.Count < count)
        {
            var item = Some.Task(step.Kind, CareSchedule.CauseOf(step.Id), CareSchedule.DueAt(days[^1], EveryDay));
            days.Add(CareSchedule.DueDayOf(CareSchedule.After(step, item, item.DueAt.AddHours(-1), EveryDay).DueAt, EveryDay));
        }

        return days;
    }

    private static DateOnly Day(string text) => DateOnly.ParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture);
}
