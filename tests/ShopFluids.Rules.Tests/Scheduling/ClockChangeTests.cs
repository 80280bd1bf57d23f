using System.Globalization;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Rules.Tests.Scheduling;

/// <summary>Clock changes of 2026: Berlin on 29 March and 25 October (at 01:00 UTC), New York on 8 March and 1 November (at 02:00 local time).</summary>
public sealed class ClockChangeTests
{
    [Theory]
    [InlineData("Europe/Berlin", "2026-03-27", "2026-03-28T05:00:00Z")]
    [InlineData("Europe/Berlin", "2026-03-28", "2026-03-29T04:00:00Z")]
    [InlineData("Europe/Berlin", "2026-03-29", "2026-03-30T04:00:00Z")]
    [InlineData("Europe/Berlin", "2026-10-24", "2026-10-25T05:00:00Z")]
    [InlineData("America/New_York", "2026-03-06", "2026-03-07T11:00:00Z")]
    [InlineData("America/New_York", "2026-03-07", "2026-03-08T10:00:00Z")]
    [InlineData("America/New_York", "2026-10-31", "2026-11-01T11:00:00Z")]
    public void DueAt_AroundAClockChange_IsSixInTheMorningOfTheShop(string zone, string day, string dueAt)
    {
        var calendar = Some.Calendar(zone);

        var due = CareSchedule.DueAt(Day(day), calendar);

        Assert.Equal(dueAt, due.ToString("yyyy-MM-ddTHH:mm:ssZ", CultureInfo.InvariantCulture));
        Assert.Equal(Day(day), CareSchedule.DueDayOf(due, calendar));
    }

    [Theory]
    [InlineData("Europe/Berlin", 2)]
    [InlineData("Europe/Berlin", 6)]
    [InlineData("America/New_York", 1)]
    [InlineData("America/New_York", 2)]
    [InlineData("America/New_York", 6)]
    public void After_DailyStepThroughAYear_PlansEachDayOnce(string zone, int dayStartHour)
    {
        // A shop day that begins in the small hours begins, in spring, in an hour that does not exist and, in autumn, in one that comes twice.
        var calendar = Some.Calendar(zone, closed: [], dayStartHour: dayStartHour);
        var step = Some.Step(intervalDays: 1, anchor: Day("2026-01-01"));
        var open = Some.Task(TaskKind.Test, CareSchedule.CauseOf(step.Id), CareSchedule.First(step, null, calendar.StartOf(Day("2026-01-01")), calendar).DueAt);
        for (var day = Day("2026-01-01"); day < Day("2027-01-01"); day = day.AddDays(1))
        {
            Assert.Equal(day, CareSchedule.DueDayOf(open.DueAt, calendar));
            var doneAt = open.DueAt.AddMinutes(-30);
            Assert.True(CareSchedule.CountsFor(step, open, doneAt, calendar));
            open = open with { DueAt = CareSchedule.After(step, open, doneAt, calendar).DueAt };
        }
    }

    [Theory]
    [InlineData("Europe/Berlin", IntervalBasis.CalendarAnchored)]
    [InlineData("Europe/Berlin", IntervalBasis.FromLastDone)]
    [InlineData("America/New_York", IntervalBasis.CalendarAnchored)]
    [InlineData("America/New_York", IntervalBasis.FromLastDone)]
    public void After_WeeklyStepDoneOnTheDayThroughAYear_StaysOnItsWeekday(string zone, IntervalBasis basis)
    {
        var calendar = Some.Calendar(zone);
        var step = Some.Step(basis: basis, anchor: Day("2026-01-07"));
        var open = Some.Task(TaskKind.Test, CareSchedule.CauseOf(step.Id), CareSchedule.DueAt(Day("2026-01-07"), calendar));
        for (var week = 0; week < 52; week++)
        {
            open = open with { DueAt = CareSchedule.After(step, open, open.DueAt.AddHours(-20), calendar).DueAt };
            Assert.Equal(DayOfWeek.Wednesday, CareSchedule.DueDayOf(open.DueAt, calendar).DayOfWeek);
        }

        Assert.Equal(Day("2027-01-06"), CareSchedule.DueDayOf(open.DueAt, calendar));
    }

    private static DateOnly Day(string text) => DateOnly.ParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture);
}
