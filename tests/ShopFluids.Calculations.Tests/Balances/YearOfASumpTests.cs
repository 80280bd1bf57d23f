using ShopFluids.Calculations.Balances;
using Xunit;

namespace ShopFluids.Calculations.Tests.Balances;

/// <summary>
/// Sumps are simulated day by day for a year with known evaporation and carry-off that vary from day to day, read each week with errors, and
/// topped up after it with measured premix. The balance has to find both amounts again.
/// </summary>
public sealed class YearOfASumpTests
{
    private const int Runs = 2000;

    [Theory]
    [InlineData(12, 4, 20260101)]
    [InlineData(4, 12, 20260102)]
    [InlineData(2, 20, 20260103)]
    public void Over_AYearOfWeeklyReadings_FindsBothLossesAgain(double evaporation, double carryOff, int seed)
    {
        var random = new Random(seed);
        var (both, closes) = (0, 0);
        for (var run = 0; run < Runs; run++)
        {
            var (balance, e, d) = Simulate(random, evaporation, carryOff);
            var evaporationFound = Math.Abs(balance.EvaporationLitres.Value - e) <= balance.EvaporationLitres.ExpandedUncertainty;
            var carryOffFound = Math.Abs(balance.CarryOffLitres.Value - d) <= balance.CarryOffLitres.ExpandedUncertainty;
            both += evaporationFound && carryOffFound ? 1 : 0;
            closes += balance.Finding.Fault is BalanceFault.None ? 1 : 0;

            // A stated uncertainty that is wide enough for anything would find everything.
            Assert.True(balance.CarryOffLitres.ExpandedUncertainty < 0.05 * 365 * (evaporation + carryOff));
        }

        Assert.InRange(both / (double)Runs, 0.90, 0.99);
        Assert.Equal(Runs, closes);
    }

    private static (ChargeBalance Balance, double Evaporated, double CarriedOff) Simulate(Random random, double evaporation, double carryOff)
    {
        var (volume, product, evaporated, carriedOff) = (400.0, 2400.0, 0.0, 0.0);
        var readings = new List<SumpReading> { Measure(random, 0, volume, product) };
        var movements = new List<Movement>();
        for (var day = 0; day < 364; day++)
        {
            if (day % 7 == 0)
            {
                // Back to 400 L and 6 %, as far as premix of 0 to 12 % can.
                var litres = 400 - volume;
                var percent = litres > 0 ? Math.Clamp((2400 - product) / litres, 0, 12) : 0;
                movements.Add(Some.Addition(day, litres * (1 + (0.01 * Normal(random))), percent, 0.02 * litres));
                (volume, product) = (volume + litres, product + (litres * percent));
            }

            for (var hour = 0; hour < 24; hour++)
            {
                var e = evaporation / 24 * (0.5 + random.NextDouble());
                var d = carryOff / 24 * (0.5 + random.NextDouble());
                product -= d * product / volume;
                volume -= e + d;
                (evaporated, carriedOff) = (evaporated + e, carriedOff + d);
            }

            if (day % 7 == 6)
            {
                readings.Add(Measure(random, day + 1, volume, product));
            }
        }

        return (Balance.Over(readings, movements), evaporated, carriedOff);
    }

    private static SumpReading Measure(Random random, double day, double volume, double product) =>
        Some.Reading(day, volume + (3 * Normal(random)), (product / volume) + (0.1 * Normal(random)), 6, 0.2);

    // Box and Muller.
    private static double Normal(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
