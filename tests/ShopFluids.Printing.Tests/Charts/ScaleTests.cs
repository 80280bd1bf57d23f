using ShopFluids.Printing.Charts;
using ShopFluids.Printing.Tests.Sheets;
using Xunit;

namespace ShopFluids.Printing.Tests.Charts;

public sealed class ScaleTests
{
    [Theory]
    [InlineData(5.0, 11.0, 4, "6,8,10", 0)]
    [InlineData(8.3, 9.9, 4, "8.5,9,9.5", 1)]
    [InlineData(-3.0, 3.0, 3, "-2,0,2", 0)]
    [InlineData(0.0, 0.01, 5, "0,0.002,0.004,0.006,0.008,0.01", 3)]
    [InlineData(100.0, 1300.0, 3, "500,1000", 0)]
    public void Over_Range_TicksOnOneTwoOrFive(double low, double high, int most, string ticks, int decimals)
    {
        var scale = NiceScale.Over(low, high, most);

        Assert.Equal(ticks, string.Join(',', scale.Ticks.Select(t => t.ToString(System.Globalization.CultureInfo.InvariantCulture))));
        Assert.Equal(decimals, scale.Decimals);
    }

    [Theory]
    [InlineData(1, "1 Jun")]
    [InlineData(10, "1 Jun 3 Jun 5 Jun 7 Jun 9 Jun 11 Jun")]
    [InlineData(90, "1 Jun 15 Jun 29 Jun 13 Jul 27 Jul")]
    [InlineData(200, "1 Jun 1 Jul 1 Aug 1 Sep 1 Oct 1 Nov 1 Dec")]
    [InlineData(700, "1 Jun 1 Sep 1 Dec 1 Mar 1 Jun 1 Sep 1 Dec 1 Mar")]
    public void On_Period_NamesDaysWhoseLabelsDoNotTouch(int days, string expected)
    {
        var from = new DateTime(2026, 5, 31, 23, 0, 0, DateTimeKind.Utc);
        var axis = SampleSheet.Axis(from, from.AddDays(days), null);

        var ticks = DayTicks.On(axis, width: 600, least: 70);

        Assert.StartsWith(expected, string.Join(' ', ticks.Select(axis.DayLabel)), StringComparison.Ordinal);
        Assert.All(ticks.Zip(ticks.Skip(1)), pair => Assert.True((pair.Second.DayNumber - pair.First.DayNumber) * 600.0 / days >= 70));
    }

    [Fact]
    public void Spread_LabelsApart_StayWhereTheyWant() =>
        Assert.Equal([10, 40, 25], LabelColumn.Spread([10, 40, 25], distance: 10, top: 0, bottom: 100));

    [Fact]
    public void Spread_LabelsTogether_MoveApartAboutTheirMean() =>
        Assert.Equal([45, 55], LabelColumn.Spread([50, 50], distance: 10, top: 0, bottom: 100));

    [Fact]
    public void Spread_LabelsAtTheEdge_StayInsideTheColumn() =>
        Assert.Equal([100, 90, 80], LabelColumn.Spread([100, 99, 98], distance: 10, top: 0, bottom: 100));

    [Fact]
    public void Spread_ChainOfNeighbours_KeepsTheDistanceEverywhere()
    {
        var heights = LabelColumn.Spread([20, 22, 31, 39, 41, 90], distance: 10, top: 0, bottom: 100);

        var sorted = heights.Order().ToList();
        Assert.Equal(sorted, heights);
        Assert.All(sorted.Zip(sorted.Skip(1)), pair => Assert.True(pair.Second - pair.First >= 10 - 1e-9));
    }
}
