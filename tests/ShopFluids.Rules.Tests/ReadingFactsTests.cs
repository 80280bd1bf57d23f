using ShopFluids.Rules.Facts;

namespace ShopFluids.Rules.Tests;

public sealed class ReadingFactsTests
{
    private static readonly ReadingFacts Reading = new(Some.Id(1), Some.Now, [Some.Measured(ParameterCodes.Ph, 9.0m), Some.Measured(ParameterCodes.Level, 200m)]);

    [Fact]
    public void Equals_SameReadingFromAnotherList_IsTheSame()
    {
        var other = new ReadingFacts(Some.Id(1), Some.Now, Reading.Measurements.ToList());

        Assert.Equal(Reading, other);
        Assert.Equal(Reading.GetHashCode(), other.GetHashCode());
    }

    public static TheoryData<ReadingFacts> Others { get; } =
    [
        Reading with { Id = Some.Id(2) },
        Reading with { TakenAt = Some.Now.AddMilliseconds(1) },
        Reading with { Measurements = [Reading.Measurements[0]] },
        Reading with { Measurements = [Reading.Measurements[1], Reading.Measurements[0]] },
        Reading with { Measurements = [Reading.Measurements[0], Some.Measured(ParameterCodes.Level, 201m)] },
    ];

    [Theory]
    [MemberData(nameof(Others))]
    public void Equals_AnythingElse_IsNot(ReadingFacts other)
    {
        Assert.NotEqual(Reading, other);
        Assert.False(Reading.Equals(null));
    }
}
