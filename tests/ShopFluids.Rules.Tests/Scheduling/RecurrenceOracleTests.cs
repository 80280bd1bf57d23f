using System.Globalization;
using Ical.Net.CalendarComponents;
using Ical.Net.DataTypes;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Rules.Tests.Scheduling;

/// <summary>Anchored series against Ical.Net, an implementation of RFC 5545 by other people.</summary>
public sealed class RecurrenceOracleTests
{
    private const int Items = 40;

    // The oracle itself first: it gives the days of every example of RFC 5545, 3.8.5.3, that is kept here, whether a step can say it or not.
    [Fact]
    public void Oracle_ExamplesOfRfc5545_GivesTheirDays()
    {
        var rows = Vector.Rows("rrule_rfc5545.csv");
        Assert.Equal(13, rows.Count);
        foreach (var row in rows)
        {
            var days = row[2].Split(';').Select(Day).ToList();
            Assert.Equal(days, Oracle(row[0].Split(' ')[0], Day(row[1]), days.Count));
        }
    }

    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    [InlineData(7)]
    [InlineData(14)]
    [InlineData(45)]
    [InlineData(365)]
    public void After_EverySoManyDays_AgreesWithTheOracle(int days)
    {
        foreach (var anchor in Anchors())
        {
            Assert.Equal(
                Oracle(string.Create(CultureInfo.InvariantCulture, $"FREQ=DAILY;INTERVAL={days}"), anchor, Items),
                Series(Some.Step(intervalDays: days, anchor: anchor, closedDays: ClosedDayPolicy.AsIs)));
        }
    }

    // A month without the day: RFC 5545 leaves it out; a step takes the last day of the month, which is the last of those that there are.
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(6)]
    [InlineData(12)]
    [InlineData(18)]
    public void After_EverySoManyMonths_AgreesWithTheOracle(int months)
    {
        foreach (var anchor in Anchors())
        {
            var days = anchor.Day <= 28 ? $"{anchor.Day}" : string.Join(',', Enumerable.Range(28, anchor.Day - 27));
            Assert.Equal(
                Oracle(string.Create(CultureInfo.InvariantCulture, $"FREQ=MONTHLY;INTERVAL={months};BYMONTHDAY={days};BYSETPOS=-1"), anchor, Items),
                Series(Some.Step(anchor: anchor, closedDays: ClosedDayPolicy.AsIs) with { IntervalMonths = months }));
        }
    }

    // Month ends, a leap day, the days of the clock changes in Berlin, and an ordinary day.
    private static IEnumerable<DateOnly> Anchors() =>
        new[] { "2024-02-29", "2026-01-31", "2026-03-29", "2026-10-25", "2026-08-30", "2026-12-31", "2026-05-12" }.Select(Day);

    private static List<DateOnly> Oracle(string rule, DateOnly anchor, int count)
    {
        var series = new CalendarEvent { Start = new CalDateTime(anchor), RecurrenceRule = new(rule) };
        return [.. series.GetOccurrences().Take(count).Select(o => o.Period.StartTime.Date)];
    }

    // Each item done on its day.
    private static List<DateOnly> Series(CareStepFacts step)
    {
        var calendar = Some.Calendar(closed: []);
        var (days, next) = (new List<DateOnly>(), step.Anchor);
        while (days.Count < Items)
        {
            next = CareSchedule.NextDueDay(step, days.Count == 0 ? null : days[^1], next, calendar);
            days.Add(next);
            next = next.AddDays(1);
        }

        return days;
    }

    private static DateOnly Day(string text) => DateOnly.ParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture);
}
