using System.Globalization;
using ShopFluids.Rules.Limit;
using ShopFluids.Rules.Shipped;

namespace ShopFluids.Rules.Tests.Shipped;

public sealed class ShippedLimitsTests
{
    [Fact]
    public void Default_AnyFluid_HasEachParameterAndBasisOnce()
    {
        var limits = ShippedLimits.Default(5m, 8m);

        Assert.Equal(limits.Count, limits.Select(l => (l.Limits.Parameter, l.Limits.Basis)).Distinct().Count());
        Assert.All(limits, l => Assert.NotEmpty(l.Source));
    }

    [Theory]
    [InlineData(5, 10)]
    [InlineData(3, 8)]
    [InlineData(1, 1)]
    [InlineData(99, 100)]
    public void Default_AnyBand_LimitsStandInOrderAndLeaveRoomToClear(int low, int high) => Assert.All(
        ShippedLimits.Default(low, high).Append(CommonPractice.TrampOilVolume).Append(CommonPractice.Level(300m, 80m)),
        l =>
        {
            decimal?[] all = [l.Limits.ActionLow, l.Limits.WarningLow, l.Limits.TargetLow, l.Limits.TargetHigh, l.Limits.WarningHigh, l.Limits.ActionHigh];
            var set = all.OfType<decimal>().ToList();
            Assert.Equal(set.Order(), set);
            Assert.True(l.Limits.WarningLow is null || l.Limits.WarningLow + l.Limits.ClearMargin <= l.Limits.WarningHigh - l.Limits.ClearMargin);
        });

    [Fact]
    public void Default_OlderBands_AreSelectable() =>
        Assert.Equal(3m, ShippedLimits.Default(5m, 8m, BacteriaBands.Of2006).Single(l => l.Limits.Parameter == ParameterCodes.Bacteria).Limits.WarningHigh);

    [Fact]
    public void Concentration_FiveToTen_ActsAtThreeAndTwelve()
    {
        var limits = CommonPractice.Concentration(5m, 10m).Limits;

        Assert.Equal((3m, 5m, 10m, 12m), (limits.ActionLow, limits.WarningLow, limits.WarningHigh, limits.ActionHigh));
    }

    [Theory]
    [InlineData(0, 5)]
    [InlineData(6, 5)]
    [InlineData(6, 101)]
    public void Concentration_NoBand_IsRefused(int low, int high) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => CommonPractice.Concentration(low, high));

    [Theory]
    [InlineData("1", Verdict.InRange)]
    [InlineData("2", Verdict.Warning)]
    [InlineData("3", Verdict.Action)]
    public void Words_EachStep_HasItsVerdict(string word, Verdict verdict) => Assert.All(
        new[] { CommonPractice.Odour, CommonPractice.Foam, CommonPractice.Fines },
        l => Assert.Equal(verdict, LimitRow.Judge(decimal.Parse(word, CultureInfo.InvariantCulture), l.Limits)?.Verdict));

    [Fact]
    public void TrampOilVolume_AgainstTheGuide_WarnsOverTwoPercent()
    {
        // UKLA/HSE good practice guide (2018), read second hand.
        var row = Assert.Single(Vector.Rows("uk_german_checks_read.csv"), r => r[1] == "tramp oil");

        Assert.Contains("maximum 2 %", row[2], StringComparison.Ordinal);
        Assert.Equal(Verdict.InRange, LimitRow.Judge(2m, CommonPractice.TrampOilVolume.Limits)?.Verdict);
        Assert.Equal(Verdict.Warning, LimitRow.Judge(2.1m, CommonPractice.TrampOilVolume.Limits)?.Verdict);
    }

    [Fact]
    public void Level_FullMarkAndIntake_LieBetweenThem()
    {
        var limits = CommonPractice.Level(300m, 80m).Limits;

        Assert.Equal((135m, 190m, 311m), (limits.ActionLow, limits.WarningLow, limits.WarningHigh));
    }
}
