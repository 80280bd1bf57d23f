using ShopFluids.Rules.LateArrival;

namespace ShopFluids.Rules.Tests.LateArrival;

public sealed class LateCaseTests
{
    // Readings 1 to 4 of as many days, 3 and 4 at one moment, and reading 9 that comes late.
    [Theory]
    [InlineData(0, null, "9 1 2 3 4")]
    [InlineData(2, null, "1 2 9 3 4")]
    [InlineData(2.5, null, "1 2 9 3 4")]
    [InlineData(3, null, "1 2 3 4 9")]
    [InlineData(5, null, "1 2 3 4 9")]
    [InlineData(2, 2, "1 9 3 4")]
    [InlineData(2, 1, "2 9 3 4")]
    [InlineData(2, 4, "1 2 9 3")]
    public void With_LateReading_StandsAfterThoseOfItsMomentAndInPlaceOfTheOneItSupersedes(double day, int? superseded, string expected)
    {
        var late = new LateCase(Read(9, day), [Read(1, 1), Read(2, 2), Read(3, 3), Read(4, 3)], [], [], 400, 183) { Superseded = superseded is { } id ? Some.Id(id) : null };

        Assert.Equal(expected.Split(' ').Select(id => Some.Id(id[0] - '0')), late.With.Select(r => r.Reading.Id));
    }

    private static EvaluationInput Read(int id, double day) =>
        Some.Input(Some.Reading(Some.Measured(ParameterCodes.Ph, 9)) with { Id = Some.Id(id), TakenAt = Some.Now.AddDays(day) });
}
