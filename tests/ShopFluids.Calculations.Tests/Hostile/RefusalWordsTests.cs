using ShopFluids.Calculations.Bacteria;
using ShopFluids.Calculations.Costs;
using ShopFluids.Calculations.Electrodes;
using ShopFluids.Calculations.Flow;
using ShopFluids.Calculations.Forecasts;
using ShopFluids.Calculations.Statistics;
using Xunit;
using Balanced = ShopFluids.Calculations.Tests.Balances.Some;
using Mixed = ShopFluids.Calculations.Tests.Mixing.Some;

namespace ShopFluids.Calculations.Tests.Hostile;

/// <summary>
/// What a refusal says to the one who reads it: the range, in words that name the unit or where the end of the range comes from.
/// <see cref="HostileInputTests"/> asks all functions for a name and a unit; here stand whole sentences.
/// </summary>
public sealed class RefusalWordsTests
{
    private static readonly FlowRate Hundred = FlowRate.FromLitresPerMinute(100);
    private static readonly PumpCurve Pump = new([new(default, 12), new(FlowRate.FromLitresPerMinute(40), 10)]);
    private static readonly StraightLine Line = StraightLine.Fit(Series.From([0, 1, 2], [1, 2, 4]));

    [Fact]
    public void Amounts_OutOfRange_NameTheirUnit()
    {
        Says("Accepted are 0 to 1000000 L as uncertainty.", () => Balanced.Reading(0, 1, 1, 1_000_001));
        Says("Accepted are 0 to 24 h.", () => Balanced.Rates(1, 1).PerDayAt(25));
        Says("Accepted are 0 to 1000000000000 CFU/mL.", () => BacteriaBands.HseCurrent.Of(-1));
        Says("Accepted are 0 to 20000 mm.", () => Stokes.Speed(1, 880, 1000, 1).SecondsOver(-1) ?? 0);
    }

    [Fact]
    public void Prices_SharedOverNoTime_NameTheLeast()
    {
        var nothing = new Priced(0, 0);
        Says(
            "Accepted are 0.01 to 1 000 000 hours or days.",
            () => new ChargeCost(nothing, nothing, nothing, nothing, nothing, nothing).Per(0));
    }

    [Fact]
    public void Voltage_OutOfRange_NamesItsUnit()
    {
        var electrode = ElectrodeCheck.TwoPoint(new(7, 0), new(4, 177), 25, new ElectrodeLimits());
        Says("Accepted are -10000 to 10000 mV.", () => electrode.PhAt(-10_001));
    }

    [Fact]
    public void Flows_OutOfRange_SayWhereTheirEndComesFrom()
    {
        Says("L/min (what 1000 bar drive).", () => Jet.PressureBar(0.05, Hundred, 1000, 1));
        Says("Accepted are 0 to 40 L/min (the end of the curve).", () => Pump.HeadMetresAt(Hundred));
        Says("Accepted are 0.1 to 0.9 (depth over diameter).", () => new ReturnLine(50, 0.01, 0.01).Check(default, 1));
        Says("Accepted are densities at least 1 kg/m³ from the fluid's.", () => Stokes.SmallestMicrometres(1, 1, 1000, 1000, 1));
    }

    [Fact]
    public void Recipe_OutOfRange_SaysWhichOtherNumberBoundsIt()
    {
        Says("Accepted are 6 to 100 % v/v (from the target).", () => Mixed.TopUp(300, 4, 400, 6, maximum: 5));
        Says("Accepted are 0 to 6 % v/v (the target).", () => Mixed.TopUp(300, 4, 400, 6, acceptedMinimum: 7));
        Says("Accepted are 6 to 100 % v/v (from the target).", () => Mixed.TopUp(300, 4, 400, 6, acceptedMaximum: 5));
    }

    [Fact]
    public void Plan_OutOfRange_NamesDaysAndRisk()
    {
        var limits = new LimitBand(7, 9);
        Says("Accepted are -100000000 to 100000000 days.", () => NextTest.Plan(null, limits, 1e9, 1, 2));
        Says("Accepted are values above 0 up to 3650 days.", () => NextTest.Plan(null, limits, 0, 1, 4000));
        Says("Accepted are 0 to 2 days (the ceiling).", () => NextTest.Plan(null, limits, 0, 3, 2));
        Says("Accepted are 0.0001 to 0.5 of risk.", () => NextTest.Plan(null, limits, 0, 1, 2, 1));
        Says("Accepted are -1000000000 to 1000000000 in the unit of time.", () => OutOfLimits.ProbabilityBy(Line, limits, 2e9, 2e9));
        Says("Accepted are 3 to 3653 in the unit of time (from the start).", () => OutOfLimits.ProbabilityBy(Line, limits, 3, 2));
    }

    [Fact]
    public void Trend_OutOfRange_NamesTimeAndConfidence()
    {
        Says("Accepted are -1000000000 to 1000000000 in the unit of time.", () => Series.From([2e9], [1]));
        Says("Accepted are -1000000000 to 1000000000 in the unit of time.", () => Line.At(2e9));
        Says("Accepted are 0.5 to 0.9999 confidence.", () => Line.SlopeInterval(1));
    }

    private static void Says(string sentence, Func<object> refused) =>
        Assert.Contains(sentence, Assert.Throws<ArgumentOutOfRangeException>(refused).Message, StringComparison.Ordinal);
}
