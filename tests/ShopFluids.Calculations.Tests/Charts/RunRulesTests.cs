using ShopFluids.Calculations.Charts;
using ShopFluids.Calculations.Tests.Vectors;
using Xunit;

namespace ShopFluids.Calculations.Tests.Charts;

/// <summary>For each rule the shortest run that makes it, at its last reading, and runs that miss it by one; centre 0, sigma 1.</summary>
public sealed class RunRulesTests
{
    [Theory]
    [InlineData(RunRule.OneBeyondThreeSigma, "0 3.01", true)]
    [InlineData(RunRule.OneBeyondThreeSigma, "0 -3.01", true)]
    [InlineData(RunRule.OneBeyondThreeSigma, "-3 3", false)]
    [InlineData(RunRule.NineOnOneSide, "-1 .1 .2 .1 .1 .1 .1 .1 .1 .1", true)]
    [InlineData(RunRule.NineOnOneSide, "-1 -.1 -.2 -.1 -.1 -.1 -.1 -.1 -.1", true)]
    [InlineData(RunRule.NineOnOneSide, ".1 .2 .1 .1 .1 .1 .1 .1", false)]
    [InlineData(RunRule.NineOnOneSide, ".1 .2 .1 .1 0 .1 .1 .1 .1 .1 .1 .1 .1", false)]
    [InlineData(RunRule.NineOnOneSide, "0 0 0 0 0 0 0 0 0 0", false)]
    [InlineData(RunRule.SixRisingOrFalling, "1 1 2 3 4 5 6", true)]
    [InlineData(RunRule.SixRisingOrFalling, "6 5 4 3 2 1", true)]
    [InlineData(RunRule.SixRisingOrFalling, "1 2 3 4 5", false)]
    [InlineData(RunRule.SixRisingOrFalling, "1 2 3 3 4 5 6 7", false)]
    [InlineData(RunRule.SixRisingOrFalling, "1 2 3 4 3 4 5 6 7", false)]
    [InlineData(RunRule.SixRisingOrFalling, "3 3 3 3 3 3 3", false)]
    [InlineData(RunRule.FourteenUpAndDown, "1 0 1 0 1 0 1 0 1 0 1 0 1 0", true)]
    [InlineData(RunRule.FourteenUpAndDown, "1 1 1 1 1 1 1 1 1 1 1 1 1 1 1", false)]
    [InlineData(RunRule.FourteenUpAndDown, "1 2 3 4 5 6 7 8 9 10 11 12 13 14 15", false)]
    [InlineData(RunRule.FourteenUpAndDown, "1 0 1 0 1 0 1 0 1 0 1 0 1", false)]
    [InlineData(RunRule.FourteenUpAndDown, "1 0 1 0 1 0 0 1 0 1 0 1 0 1 0", false)]
    [InlineData(RunRule.TwoOfThreeBeyondTwoSigma, "2.1 0 2.1", true)]
    [InlineData(RunRule.TwoOfThreeBeyondTwoSigma, "-2.1 -3.1", true)]
    [InlineData(RunRule.TwoOfThreeBeyondTwoSigma, "2.1 0 -2.1", false)]
    [InlineData(RunRule.TwoOfThreeBeyondTwoSigma, "2.1 0 0 2.1", false)]
    [InlineData(RunRule.TwoOfThreeBeyondTwoSigma, "2 2 2", false)]
    [InlineData(RunRule.TwoOfThreeBeyondTwoSigma, "2.1 2.1 1", false, 2)]
    [InlineData(RunRule.FourOfFiveBeyondOneSigma, "1.1 0 1.1 1.1 1.1", true)]
    [InlineData(RunRule.FourOfFiveBeyondOneSigma, "-1.1 -2.1 -3.1 -1.1", true)]
    [InlineData(RunRule.FourOfFiveBeyondOneSigma, "1.1 0 0 1.1 1.1 1.1", false)]
    [InlineData(RunRule.FourOfFiveBeyondOneSigma, "1 1 1 1 1", false)]
    [InlineData(RunRule.FourOfFiveBeyondOneSigma, "1.1 -1.1 1.1 -1.1 1.1", false)]
    [InlineData(RunRule.FifteenWithinOneSigma, "0 .9 -.9 0 0 0 0 0 0 0 0 0 0 0 0", true)]
    [InlineData(RunRule.FifteenWithinOneSigma, "0 0 0 0 0 0 0 0 0 0 0 0 0 0", false)]
    [InlineData(RunRule.FifteenWithinOneSigma, "0 0 1 0 0 0 0 0 0 0 0 0 0 0 0", false)]
    [InlineData(RunRule.EightBeyondOneSigma, "1.1 -1.1 2 -2 1.1 1.1 -1.1 -1.1", true)]
    [InlineData(RunRule.EightBeyondOneSigma, "1.1 -1.1 2 -2 1.1 1.1 -1.1", false)]
    [InlineData(RunRule.EightBeyondOneSigma, "1.1 1 2 -2 1.1 1.1 -1.1 2 2", false)]
    [InlineData(RunRule.EightOnOneSide, ".1 .2 .1 .1 .1 .1 .1 .1", true)]
    [InlineData(RunRule.EightOnOneSide, ".1 .2 .1 .1 .1 .1 .1", false)]
    public void Find_ConstructedRuns_AreToldAtTheLastReading(RunRule rule, string values, bool expected, int places = 1)
    {
        double[] numbers = [.. values.Split(' ').Select(VectorFile.Number)];
        var signals = RunRules.Find(numbers, 0, 1, [rule]);
        if (places == 1)
        {
            Assert.Equal(expected ? [new RunSignal(numbers.Length - 1, rule)] : [], signals);
        }

        // The same run about another centre, with another sigma.
        var moved = RunRules.Find([.. numbers.Select(number => 50 + (4 * number))], 50, 4, [rule]);
        Assert.Equal(signals, moved);
        Assert.Equal(expected, signals.Any(signal => signal.Place == numbers.Length - 1));
    }

    [Fact]
    public void Find_SeveralRules_AreToldInOrderOfPlace()
    {
        var signals = RunRules.Find([3.5, 3.5], 0, 1, [RunRule.TwoOfThreeBeyondTwoSigma, RunRule.OneBeyondThreeSigma]);
        Assert.Equal(
            [new(0, RunRule.OneBeyondThreeSigma), new(1, RunRule.TwoOfThreeBeyondTwoSigma), new(1, RunRule.OneBeyondThreeSigma)],
            signals);
    }

    [Fact]
    public void RuleSets_NelsonAndWesternElectric_AreThePublishedOnes()
    {
        Assert.Equal([1, 2, 3, 4, 5, 6, 7, 8], RunRules.Nelson.Select(rule => (int)rule));
        Assert.Equal([1, 5, 6, 9], RunRules.WesternElectric.Select(rule => (int)rule));
    }

    [Fact]
    public void Find_NoRuleOrUnknownRule_IsRefusedByName()
    {
        Assert.Throws<ArgumentOutOfRangeException>("rules", () => RunRules.Find([1], 0, 1, []));
        Assert.Throws<ArgumentOutOfRangeException>("rules", () => RunRules.Find([1], 0, 1, [(RunRule)10]));
        Assert.Throws<ArgumentOutOfRangeException>("rules", () => RunRules.Find([1], 0, 1, [(RunRule)(-1)]));
        Assert.Throws<ArgumentOutOfRangeException>("sigma", () => RunRules.Find([1], 0, -1, RunRules.Nelson));
        Assert.Throws<ArgumentOutOfRangeException>("centre", () => RunRules.Find([1], double.NaN, 1, RunRules.Nelson));
    }
}
