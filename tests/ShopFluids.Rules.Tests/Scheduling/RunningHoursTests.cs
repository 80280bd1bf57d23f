using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Rules.Tests.Scheduling;

public sealed class RunningHoursTests
{
    [Theory]
    [InlineData(400, 80, 35)]
    [InlineData(40, 168, 2)]
    [InlineData(1, 168, 1)]
    [InlineData(500, 40, 88)]
    [InlineData(500, 0, 3660)]
    [InlineData(50_000, 1, 3660)]
    public void Days_HoursOfAWeek_AreDaysInProportion(int hours, double weekly, int days) => Assert.Equal(days, RunningHours.Days(hours, (decimal)weekly));

    [Theory]
    [InlineData(0, 40)]
    [InlineData(10, -1)]
    [InlineData(10, 168.1)]
    public void Days_OutOfRange_IsAWrongCall(int hours, double weekly) => Assert.Throws<ArgumentOutOfRangeException>(() => RunningHours.Days(hours, (decimal)weekly));
}
