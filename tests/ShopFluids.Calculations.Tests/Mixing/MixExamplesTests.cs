using ShopFluids.Calculations.Mixing;
using ShopFluids.Calculations.Tests.Vectors;
using Xunit;

namespace ShopFluids.Calculations.Tests.Mixing;

/// <summary>
/// mix_examples.csv: alligation exercises that were read (the first in US Army MD0802, its answer computed), top-up and dilution computed.
/// </summary>
public sealed class MixExamplesTests
{
    public static TheoryData<string[]> Examples => VectorFile.Theory("mix_examples");

    [Theory]
    [MemberData(nameof(Examples))]
    public void AnyMix_PublishedAndComputedExamples_Agree(string[] row)
    {
        var printed = row[3].Split(';', ':').Select(VectorFile.Number).ToArray();
        var actual = Answer(row[1]);
        Assert.Equal(printed.Length, actual.Length);
        Assert.All(printed.Zip(actual), pair => Assert.Equal(pair.First, pair.Second, 6));
    }

    private static double[] Answer(string problem) => problem switch
    {
        "300 mL of 70 % -> 40 % with water" => [Dilution.LitresToAdd(300, 70, 0, 40)],
        "20 mL of 70 % from 50 % and 100 %" => LowThenHigh(Alligation.Litres(20, 50, 100, 70)),
        "90 L of 60 % to 40 % with 30 %" => [Dilution.LitresToAdd(90, 60, 30, 40)],
        "90 % and 10 % to 50 %" => Ratio(Alligation.Parts(10, 90, 50)),
        "from concentrate 100 % make 200 L at 6 %" => Amounts(FreshMix.Plan(200, 6, 0.1)),
        "from concentrate 100 % make 50 US gal at 5 %" => [FreshMix.Plan(50, 5, 0.1).ConcentrateLitres],
        "300 L at 4 % -> 400 L at 6 %" => Premix(TopUp.Plan(Some.TopUp(300, 4, 400, 6, maximum: 15))),
        "350 L at 6 % -> 400 L at 6 %" => Premix(TopUp.Plan(Some.TopUp(350, 6, 400, 6))),
        "350 L at 9 % -> 400 L at 8 %" => Premix(TopUp.Plan(Some.TopUp(350, 9, 400, 8))),
        "380 L at 10 % -> 400 L at 8 %" => [TopUp.Plan(Some.TopUp(380, 10, 400, 8)).ExpectedPercent],
        "300 L at 9 % -> 6 % with water, level may rise" => [Dilution.LitresToAdd(300, 9, 0, 6)],
        "300 L at 4 % -> 6 % with 100 % concentrate" => [Dilution.LitresToAdd(300, 4, 100, 6)],
        "400 L at 10 % -> 8 % drain x and refill water" => [TopUp.Plan(Some.TopUp(400, 10, 400, 8)).RemoveLitres],
        "400 L at 6 %, 50 L water evaporates" => [Dilution.PercentAfterWater(400, 6, -50)],
        _ => throw new InvalidOperationException($"No check for \"{problem}\"."),
    };

    private static double[] LowThenHigh((double HighLitres, double LowLitres) litres) => [litres.LowLitres, litres.HighLitres];

    private static double[] Ratio((double HighParts, double LowParts) parts) => [parts.HighParts / parts.LowParts, 1];

    private static double[] Amounts(FreshMixRecipe recipe) => [recipe.ConcentrateLitres, recipe.WaterLitres];

    private static double[] Premix(TopUpRecipe recipe) => [recipe.ConcentrateLitres, recipe.WaterLitres, recipe.PremixPercent];
}
