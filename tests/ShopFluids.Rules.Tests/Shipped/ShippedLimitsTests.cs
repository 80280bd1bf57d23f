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

    // A flag clears 0.2 % inside its limit; in a band that is narrower than 0.8 % a quarter of it.
    [Theory]
    [InlineData(5.0, 8.0, 0.2)]
    [InlineData(5.0, 5.8, 0.2)]
    [InlineData(5.0, 5.4, 0.1)]
    [InlineData(5.0, 5.0, 0.0)]
    public void Concentration_NarrowBand_HasANarrowMargin(double low, double high, double margin) =>
        Assert.Equal((decimal)margin, CommonPractice.Concentration((decimal)low, (decimal)high).Limits.ClearMargin);

    // Weak fluid acts at half of its lower end, strong fluid at 100 %.
    [Fact]
    public void Concentration_AtTheEnds_ActsWithinWhatThereCanBe() =>
        Assert.Equal((1m, 100m), (CommonPractice.Concentration(2m, 3m).Limits.ActionLow, CommonPractice.Concentration(90m, 99m).Limits.ActionHigh));

    // A level clears 5 mm inside its limit, in a shallow sump a twentieth of its range.
    [Theory]
    [InlineData(300, 80, 5)]
    [InlineData(180, 80, 5)]
    [InlineData(100, 60, 2)]
    public void Level_ShallowSump_HasASmallMargin(int fullMark, int intake, int margin) => Assert.Equal(margin, CommonPractice.Level(fullMark, intake).Limits.ClearMargin);

    [Theory]
    [InlineData(300, -1)]
    [InlineData(80, 80)]
    [InlineData(79, 80)]
    public void Level_MarksTheWrongWayRound_IsRefused(int fullMark, int intake) => Assert.Throws<ArgumentOutOfRangeException>(() => CommonPractice.Level(fullMark, intake));

    // Where a number comes from stands beside it, with the place in the document.
    [Fact]
    public void Source_OfAPublishedLimit_NamesDocumentAndPlace()
    {
        Assert.Contains("UKLA/HSE", CommonPractice.TrampOilVolume.Source, StringComparison.Ordinal);
        Assert.Contains("UKLA/HSE", CommonPractice.Temperature.Source, StringComparison.Ordinal);
        Assert.EndsWith("Annex 3, no. 2", DguvAnnex3.PhDrop.Source, StringComparison.Ordinal);
        Assert.EndsWith("Annex 3, no. 5; TRGS 611 (May 2007)", DguvAnnex3.Nitrite.Source, StringComparison.Ordinal);
        Assert.EndsWith("Annex 3, no. 6", DguvAnnex3.MakeUpNitrate.Source, StringComparison.Ordinal);
        Assert.Contains("current page", HseBacteria.For(BacteriaBands.Current).Source, StringComparison.Ordinal);
        Assert.Contains("2006 to 2012", HseBacteria.For(BacteriaBands.Of2006).Source, StringComparison.Ordinal);
    }

    // Of these a high value says nothing that a bad one does not.
    [Theory]
    [InlineData(ParameterCodes.Odour, true)]
    [InlineData(ParameterCodes.Foam, true)]
    [InlineData(ParameterCodes.Fines, true)]
    [InlineData(ParameterCodes.TrampOil, true)]
    [InlineData(ParameterCodes.Bacteria, true)]
    [InlineData(ParameterCodes.Ph, false)]
    [InlineData(ParameterCodes.Level, false)]
    public void IsBadOnlyHigh_Parameter_IsOneOfWhichLessIsBetter(string code, bool expected) => Assert.Equal(expected, ParameterCodes.IsBadOnlyHigh(code));

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
