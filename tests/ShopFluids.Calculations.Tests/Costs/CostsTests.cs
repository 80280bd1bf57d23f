using FsCheck.Xunit;
using ShopFluids.Calculations.Costs;
using Xunit;

namespace ShopFluids.Calculations.Tests.Costs;

public sealed class CostsTests
{
    // The worked example of docs/calculations/costs.md.
    private static readonly ChargeCost Charge = new(
        Concentrate: new(46.5m, 4.20m),
        Water: new(620m, 0.005m),
        Additives: new(2m, 18.50m),
        Waste: new(446m, 0.35m),
        Labour: new(9.5m, 38m),
        Downtime: new(3.25m, 65m));

    [Fact]
    public void Total_ChargeOfHalfAYear_MatchesTheWorkedExample()
    {
        Assert.Equal(195.30m + 3.10m + 37m + 156.10m + 361m + 211.25m, Charge.Total);
        Assert.Equal(963.75m, Charge.Total);
        Assert.Equal(0.9637500m, Charge.Per(1000));
        Assert.Equal(963.75m, Charge.Per(1));
        Assert.Equal(96_375m, Charge.Per(0.01m));
        Assert.Equal(0.00096375m, Charge.Per(1_000_000));
    }

    [Fact]
    public void Priced_Edges_AreAcceptedAndBeyondRefusedByName()
    {
        Assert.Equal(1_000_000_000_000m, new Priced(1_000_000, 1_000_000).Cost);
        Assert.Equal(0, new Priced(0, 0).Cost);
        Assert.Throws<ArgumentOutOfRangeException>("Amount", () => new Priced(1_000_000.01m, 1));
        Assert.Throws<ArgumentOutOfRangeException>("Amount", () => new Priced(-0.01m, 1));
        Assert.Throws<ArgumentOutOfRangeException>("PricePerUnit", () => new Priced(1, 1_000_000.01m));
        Assert.Throws<ArgumentOutOfRangeException>("PricePerUnit", () => new Priced(1, -0.01m));
        Assert.Throws<ArgumentOutOfRangeException>("units", () => Charge.Per(0));
        Assert.Throws<ArgumentOutOfRangeException>("units", () => Charge.Per(1_000_001));
        var nothing = new Priced(0, 0);
        Assert.Throws<ArgumentNullException>("Concentrate", () => new ChargeCost(null!, nothing, nothing, nothing, nothing, nothing));
        Assert.Throws<ArgumentNullException>("Water", () => new ChargeCost(nothing, null!, nothing, nothing, nothing, nothing));
        Assert.Throws<ArgumentNullException>("Additives", () => new ChargeCost(nothing, nothing, null!, nothing, nothing, nothing));
        Assert.Throws<ArgumentNullException>("Waste", () => new ChargeCost(nothing, nothing, nothing, null!, nothing, nothing));
        Assert.Throws<ArgumentNullException>("Labour", () => new ChargeCost(nothing, nothing, nothing, nothing, null!, nothing));
        Assert.Throws<ArgumentNullException>("Downtime", () => new ChargeCost(nothing, nothing, nothing, nothing, nothing, null!));
    }

    // Care that costs 0.10 more each day: the average (F + Σ 0.1 i) / T is least near √(2 F / 0.1), here 100 days for 500.
    [Fact]
    public void Of_CareRisingEvenly_IsLeastAtTheKnownAge()
    {
        var life = EconomicLife.Of(500, [.. Enumerable.Range(1, 200).Select(day => day * 0.1m)]);
        Assert.Equal(new EconomicLife(100, 10.05m, false), life);
        Assert.Equal(ChargeDecision.Keep, life.Decide(10.04m, false));
        Assert.Equal(ChargeDecision.Drain, life.Decide(10.05m, false));
        Assert.Equal(ChargeDecision.DrainForCondition, life.Decide(0, true));
    }

    [Fact]
    public void Of_CareThatStaysTheSame_IsStillFallingAtTheEnd() =>
        Assert.Equal(new EconomicLife(4, 12, true), EconomicLife.Of(40, [2, 2, 2, 2]));

    [Fact]
    public void AverageByDay_EachAge_SharesTheRefillAndTheCareUpToIt()
    {
        Assert.Equal([12, 8, 7], EconomicLife.AverageByDay(10, [2, 4, 5]));
        Assert.Equal("careCostByDay", Assert.Throws<ArgumentOutOfRangeException>(() => EconomicLife.AverageByDay(10, [])).ParamName);
    }

    [Fact]
    public void Of_EqualAverages_TakesTheFirst() => Assert.Equal(new EconomicLife(1, 12, false), EconomicLife.Of(10, [2, 12]));

    [Property(MaxTest = 5000, Replay = "20260101,20260103")]
    public void Of_AnyForecast_NoOtherAgeIsCheaper(ushort refill, byte[] care)
    {
        if (care.Length is 0)
        {
            Assert.Throws<ArgumentOutOfRangeException>("careCostByDay", () => EconomicLife.Of(refill, []));
            return;
        }

        var life = EconomicLife.Of(refill, [.. care.Select(cost => (decimal)cost)]);
        for (var days = 1; days <= care.Length; days++)
        {
            Assert.True((refill + care.Take(days).Sum(cost => (decimal)cost)) / days >= life.LeastAveragePerDay);
        }

        Assert.InRange(life.BestDays, 1, care.Length);
        Assert.Equal(life.BestDays == care.Length, life.IsStillFalling);
    }

    [Fact]
    public void Inputs_OutOfRange_AreRefusedByName()
    {
        Assert.Throws<ArgumentOutOfRangeException>("refillCost", () => EconomicLife.Of(-1, [1]));
        Assert.Throws<ArgumentOutOfRangeException>("refillCost", () => EconomicLife.Of(1_000_000_001, [1]));
        Assert.Throws<ArgumentOutOfRangeException>("careCostByDay", () => EconomicLife.Of(1, [1, -1]));
        Assert.Throws<ArgumentOutOfRangeException>("careCostByDay", () => EconomicLife.Of(1, [.. Enumerable.Repeat(1m, 10_001)]));
        Assert.Equal(10_000, EconomicLife.Of(1, [.. Enumerable.Repeat(1m, 10_000)]).BestDays);
        Assert.Throws<ArgumentNullException>("careCostByDay", () => EconomicLife.Of(1, null!));
        Assert.Throws<ArgumentOutOfRangeException>("careCostOfNextDay", () => new EconomicLife(1, 1, false).Decide(-1, true));
    }
}
