using System.Globalization;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Rules.Tests.Scheduling;

/// <summary>Work that falls due with a shift: three of them, from 06:00 in Berlin, so that the last ends with the shop day.</summary>
public sealed class ShiftTests
{
    private static readonly ShopCalendar Calendar = Some.Calendar() with { ShiftEnds = [new(14, 0), new(22, 0), new(6, 0)] };
    private static readonly DateOnly Wednesday = new(2026, 3, 4);

    // A shift that the shop does not have (any more) is the whole day.
    [Theory]
    [InlineData(0, "2026-03-05T05:00:00Z")]
    [InlineData(1, "2026-03-04T13:00:00Z")]
    [InlineData(2, "2026-03-04T21:00:00Z")]
    [InlineData(3, "2026-03-05T05:00:00Z")]
    [InlineData(4, "2026-03-05T05:00:00Z")]
    [InlineData(-1, "2026-03-05T05:00:00Z")]
    public void EndOfShift_OfADay_IsItsClockTime(int shift, string expected) => Assert.Equal(expected, Text(Calendar.EndOfShift(Wednesday, shift)));

    // A night shift ends on the next date and is still of its shop day.
    [Fact]
    public void EndOfShift_InTheNight_IsOfTheShopDayBefore()
    {
        var night = Calendar with { ShiftEnds = [new(22, 0), new(4, 30)] };

        var end = night.EndOfShift(Wednesday, 2);

        Assert.Equal("2026-03-05T03:30:00Z", Text(end));
        Assert.Equal(Wednesday, CareSchedule.DueDayOf(end, night));
    }

    // On 29 March there is no 02:30 in Berlin; on 25 October it comes twice, and the first counts.
    [Theory]
    [InlineData("2026-03-28", "2026-03-29T01:00:00Z")]
    [InlineData("2026-10-24", "2026-10-25T00:30:00Z")]
    public void EndOfShift_InAChangedHour_IsOnceAndOfItsDay(string day, string expected)
    {
        var night = Calendar with { ShiftEnds = [new(2, 30)] };
        var of = DateOnly.ParseExact(day, "yyyy-MM-dd", CultureInfo.InvariantCulture);

        Assert.Equal(expected, Text(night.EndOfShift(of, 1)));
        Assert.Equal(of, CareSchedule.DueDayOf(night.EndOfShift(of, 1), night));
    }

    [Theory]
    [InlineData(0, "2026-03-05T05:00:00Z")]
    [InlineData(1, "2026-03-04T13:00:00Z")]
    public void First_StepOfAShift_IsLateFromItsEndOn(int shift, string expected) =>
        Assert.Equal(expected, Text(CareSchedule.First(Some.Step() with { Shift = shift }, null, Some.Now, Calendar).DueAt));

    [Fact]
    public void After_StepOfAShift_GoesOnWithItOnTheNextDay()
    {
        var step = Some.Step(intervalDays: 7) with { Shift = 2 };
        var open = Some.Task(TaskKind.Test, CareSchedule.CauseOf(step.Id), CareSchedule.DueAt(Wednesday, Calendar, 2));

        Assert.Equal("2026-03-11T21:00:00Z", Text(CareSchedule.After(step, open, Calendar.StartOf(Wednesday).AddHours(2), Calendar).DueAt));
    }

    private static string Text(DateTime instant) => instant.ToString("yyyy-MM-ddTHH:mm:ssZ", CultureInfo.InvariantCulture);
}
