using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using ShopFluids.Calculations.Balances;
using Xunit;

namespace ShopFluids.Calculations.Tests.Balances;

/// <summary>What holds for every charge, whether its readings make sense or not.</summary>
[Properties(MaxTest = 100_000, Replay = "20260101,20260103", Arbitrary = [typeof(BalancePropertyTests)])]
public sealed class BalancePropertyTests
{
    public sealed record Charge(SumpReading[] Readings, Movement[] Movements);

    /// <summary>Two or three readings a week apart, none to two movements between each; any volume, strength and uncertainty.</summary>
    public static Arbitrary<Charge> Charges()
    {
        var numbers = Gen.Choose(0, 1000).ArrayOf(24);
        return numbers.Select(n =>
        {
            var count = 2 + (n[0] % 2);
            var readings = Enumerable.Range(0, count)
                .Select(i => Some.Reading(7 * i, n[1 + i], 0.1 + (n[4 + i] / 50.0), n[7 + i] / 50.0, n[10 + i] / 1000.0)).ToArray();
            var movements = Enumerable.Range(0, n[13] % 3).Select(i =>
            {
                var (day, litres, percent) = (3.0 * i, n[14 + i] / 2.0, n[17 + i] / 20.0);
                return n[20 + i] % 3 > 0 ? Some.Addition(day, litres, percent, 1) : Some.Removal(day, litres, percent, 1, 0.1);
            }).ToArray();
            return new Charge(readings, movements);
        }).ToArbitrary();
    }

    [Property]
    public void Over_VolumeAndConcentrate_AreConservedAndFinite(Charge charge)
    {
        var balance = Balance.Over(charge.Readings, charge.Movements);
        var (first, last) = (charge.Readings[0], charge.Readings[^1]);
        var moved = charge.Movements.Sum(m => (m.IsAddition ? 1 : -1) * m.Litres.Value);
        var product = charge.Movements.Sum(m => (m.IsAddition ? 1 : -1) * m.Litres.Value * m.ConcentrationPercent.Value);
        var left = first.VolumeLitres.Value + moved - balance.EvaporationLitres.Value - balance.CarryOffLitres.Value;
        Assert.Equal(last.VolumeLitres.Value, left, tolerance: 1e-8);
        var productLeft = (first.VolumeLitres.Value * first.ConcentrationPercent.Value) + product
            - (balance.CarryOffLitres.Value * balance.MeanConcentrationPercent);
        Assert.Equal(last.VolumeLitres.Value * last.ConcentrationPercent.Value, productLeft, tolerance: 1e-6);
        Assert.InRange(balance.MeanConcentrationPercent, 0.01, 100);
        Assert.Equal(balance.EvaporationLitres.Value < -balance.EvaporationLitres.ExpandedUncertainty - 1e-6, balance.Finding.Fault is BalanceFault.EvaporationNegative or BalanceFault.BothNegative);
    }

    [Property]
    public void Over_MoreWaterAdded_IsMoreEvaporation(Charge charge)
    {
        var without = Balance.Over(charge.Readings, charge.Movements);
        var with = Balance.Over(charge.Readings, [Some.Addition(0, 10, 0), .. charge.Movements]);
        Assert.Equal(without.VolumeLostLitres.Value + 10, with.VolumeLostLitres.Value, tolerance: 1e-8);
        Assert.Equal(without.ConcentrateLostLitres.Value, with.ConcentrateLostLitres.Value, tolerance: 1e-8);
        Assert.True(with.VolumeLostLitres.Value > without.VolumeLostLitres.Value);
    }

    [Property]
    public void At_LaterDays_NeverHoldMoreNorWeaker(PositiveInt volume, PositiveInt percent, PositiveInt evaporation, PositiveInt carryOff)
    {
        var (litres, strength) = (50 + (volume.Get % 1000), 1 + (percent.Get % 10));
        var (e, d) = (evaporation.Get % 20 / 10.0, carryOff.Get % 20 / 10.0);
        var (now, rates) = (Some.Reading(0, litres, strength, 4, 0.2), Some.Rates(e + d, e, 0.1, 0.1));
        var (sooner, later) = (Outlook.At(now, rates, 3), Outlook.At(now, rates, 6));
        Assert.True(later.VolumeLitres.Value <= sooner.VolumeLitres.Value && sooner.VolumeLitres.Value <= litres);
        Assert.True(later.ConcentrationPercent.Value >= sooner.ConcentrationPercent.Value && sooner.ConcentrationPercent.Value >= strength);

        // What is left of the concentrate is what carry-off did not take: P/P₀ = (V/V₀)^(d/(e + d)).
        var expected = strength * litres * (e + d > 0 ? Math.Pow(later.VolumeLitres.Value / litres, d / (e + d)) : 1);
        Assert.Equal(expected, later.ConcentrationPercent.Value * later.VolumeLitres.Value, tolerance: 1e-8 * expected);
    }

    [Property]
    public void At_Buildup_IsMonotoneAndStaysBetweenStartAndSteadyState(PositiveInt evaporation, PositiveInt carryOff, PositiveInt makeUp, PositiveInt start, PositiveInt day)
    {
        var sump = new MakeUp(400, evaporation.Get % 100, (carryOff.Get % 100) + 1);
        var (water, first, days) = (makeUp.Get % 1000, start.Get % 1000, day.Get % 500);
        var end = Buildup.SteadyStateMgPerLitre(sump, water) ?? 0;
        var (now, later) = (Buildup.At(sump, water, first, days), Buildup.At(sump, water, first, days + 10));
        Assert.InRange(now, Math.Min(first, end) - 1e-6, Math.Max(first, end) + 1e-6);
        Assert.True(Math.Abs(end - later) <= Math.Abs(end - now) + 1e-6);

        // Brought minus carried off is what is there: d/dt by a central difference.
        var slope = (Buildup.At(sump, water, first, days + 0.001) - Buildup.At(sump, water, first, Math.Max(0, days - 0.001))) / (days > 0 ? 0.002 : 0.001);
        var balance = ((sump.LitresPerDay * water) - (sump.CarryOffLitresPerDay * now)) / 400;
        Assert.Equal(balance, slope, tolerance: 1e-3 * (1 + Math.Abs(balance)));
    }

    [Property]
    public void Of_Blend_KeepsItsSolids(PositiveInt hard, PositiveInt soft, PositiveInt wanted)
    {
        var (most, least) = (1 + (hard.Get % 1000), soft.Get % (1 + (hard.Get % 1000)));
        var blend = WaterBlend.Of(most, least, wanted.Get % 1000);
        Assert.InRange(blend.SoftShare, 0, 1);
        Assert.Equal((blend.SoftShare * least) + ((1 - blend.SoftShare) * most), blend.BlendMgPerLitre, tolerance: 1e-9);
        Assert.True(blend.Case is WaterBlendCase.NotReachable || blend.BlendMgPerLitre <= wanted.Get % 1000);
    }
}
