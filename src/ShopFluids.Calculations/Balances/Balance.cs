using System.Runtime.InteropServices;
using ShopFluids.Calculations.Uncertainties;

namespace ShopFluids.Calculations.Balances;

/// <summary>
/// The mass balance of a charge. Volumes add up, concentrate counts as 100 % product, and only two things leave without a record: water
/// that evaporates, E, and mix that is carried off, D. With a litres of p percent added (removals count negative):
/// L = V₀ + Σa − V₁; 100 L_c = c₀ V₀ + Σ p a − c₁ V₁; D = 100 L_c / c̄; E = L − D. Mass balance; the averaging of c̄ is
/// <see cref="ConcentrationPath"/>'s.
/// </summary>
public static class Balance
{
    /// <summary>c̄ below this tells nothing about carry-off, % v/v.</summary>
    public const double LeastMeanPercent = 0.01;

    /// <summary>Readings closer together than this are one moment, days.</summary>
    public const double ShortestDays = 1e-5;

    private const int MostEntries = 100_000;
    private const double ShortestHours = 0.01;

    // Litres that come from binary rounding alone.
    private const double Noise = 1e-6;

    /// <summary>Works out the balance from the first reading to the last. Time and memory grow in line with readings and movements.</summary>
    /// <param name="readings">Two to 100 000, each later than the one before; the hour meter does not run back.</param>
    /// <param name="movements">Up to 100 000, in order of time, from the first reading to before the last.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// Too few or too many, a time out of order, or a mean concentration below <see cref="LeastMeanPercent"/>.
    /// </exception>
    public static ChargeBalance Over(IReadOnlyList<SumpReading> readings, IReadOnlyList<Movement> movements) =>
        TryOver(readings, movements) ?? throw new ArgumentOutOfRangeException(
            nameof(readings), Require.Text($"Accepted are readings with a mean concentration of {LeastMeanPercent} % v/v or more."));

    /// <summary>The same; null where the mean concentration is below <see cref="LeastMeanPercent"/>, so that nothing follows.</summary>
    /// <param name="readings">As above.</param>
    /// <param name="movements">As above.</param>
    /// <exception cref="ArgumentOutOfRangeException">Too few or too many, or a time out of order.</exception>
    public static ChargeBalance? TryOver(IReadOnlyList<SumpReading> readings, IReadOnlyList<Movement> movements)
    {
        CheckReadings(readings);
        CheckMovements(movements, readings[0].Day, readings[^1].Day);
        var (first, last) = (readings[0], readings[^1]);
        var (lost, product) = (first.VolumeLitres.Value - last.VolumeLitres.Value, Product(first) - Product(last));
        foreach (var movement in movements)
        {
            lost += movement.Sign * movement.Litres.Value;
            product += movement.Sign * movement.Litres.Value * movement.ConcentrationPercent.Value;
        }

        var mean = ConcentrationPath.MeanPercent(readings, movements);
        return mean < LeastMeanPercent ? null : Propagated(readings, movements, lost, product, mean);
    }

    private static ChargeBalance Propagated(
        IReadOnlyList<SumpReading> readings, IReadOnlyList<Movement> movements, double lost, double product, double mean)
    {
        var (first, last) = (readings[0], readings[^1]);
        var days = last.Day - first.Day;
        var carryOff = product / mean;
        var sums = default(Squares);
        for (var i = 0; i < readings.Count; i++)
        {
            // A reading weighs in c̄ with half of the time to each of its neighbours.
            var (earlier, later) = (readings[Math.Max(0, i - 1)].Day, readings[Math.Min(readings.Count - 1, i + 1)].Day);
            var inMean = carryOff * ((later - earlier) / (2 * days)) / mean;
            var end = i == 0 ? 1 : i == readings.Count - 1 ? -1 : 0;
            var (volume, percent) = (readings[i].VolumeLitres, readings[i].ConcentrationPercent);
            sums.Add(volume.StandardUncertainty, end, end * percent.Value, end * percent.Value / mean);
            sums.Add(percent.StandardUncertainty, 0, end * volume.Value, (end * volume.Value / mean) - inMean);
        }

        foreach (var movement in movements)
        {
            var (litres, percent) = (movement.Litres, movement.ConcentrationPercent);
            sums.Add(litres.StandardUncertainty, movement.Sign, movement.Sign * percent.Value, movement.Sign * percent.Value / mean);
            sums.Add(percent.StandardUncertainty, 0, movement.Sign * litres.Value, movement.Sign * litres.Value / mean);
        }

        var (d, e) = (sums.OfCarryOff(carryOff), sums.OfEvaporation(lost - carryOff));
        return new(
            days,
            last.RunningHours - first.RunningHours is >= ShortestHours and var hours ? hours : null,
            sums.OfLost(lost),
            sums.OfProduct(product / 100),
            mean,
            d,
            e,
            BalanceFinding.Of(IsNegative(e), IsNegative(d)));
    }

    private static bool IsNegative(Estimate loss) => loss.Value < -loss.ExpandedUncertainty - Noise;

    private static double Product(SumpReading reading) => reading.VolumeLitres.Value * reading.ConcentrationPercent.Value;

    private static void CheckReadings(IReadOnlyList<SumpReading> readings)
    {
        ArgumentNullException.ThrowIfNull(readings);
        Require.Between(readings.Count, 2, MostEntries, "readings", nameof(readings));
        var hours = 0.0;
        for (var i = 0; i < readings.Count; i++)
        {
            if (readings[i] is not { } reading)
            {
                throw new ArgumentException("Accepted are readings, none of them missing (null).", nameof(readings));
            }

            if (i > 0 && reading.Day - readings[i - 1].Day < ShortestDays)
            {
                throw new ArgumentOutOfRangeException(nameof(readings), reading.Day, "Accepted are readings each later than the one before by a second or more.");
            }

            if (reading.RunningHours < hours)
            {
                throw new ArgumentOutOfRangeException(nameof(readings), reading.RunningHours, "Accepted are readings whose hour meter does not run back.");
            }

            hours = reading.RunningHours ?? hours;
        }
    }

    private static void CheckMovements(IReadOnlyList<Movement> movements, double from, double to)
    {
        ArgumentNullException.ThrowIfNull(movements);
        Require.Between(movements.Count, 0, MostEntries, "movements", nameof(movements));
        var day = from;
        foreach (var movement in movements)
        {
            if (movement is null)
            {
                throw new ArgumentException("Accepted are movements, none of them missing (null).", nameof(movements));
            }

            if (movement.Day < day || movement.Day >= to)
            {
                throw new ArgumentOutOfRangeException(
                    nameof(movements), movement.Day, Require.Text($"Accepted are movements in order of time, from day {from} to before day {to}."));
            }

            day = movement.Day;
        }
    }

    // GUM first order for the four results at once; the sensitivities of the product are in percent litres.
    [StructLayout(LayoutKind.Auto)]
    private struct Squares
    {
        private double _lost;
        private double _product;
        private double _carryOff;
        private double _evaporation;

        public void Add(double u, double toLost, double toProduct, double toCarryOff)
        {
            var squared = u * u;
            _lost += toLost * toLost * squared;
            _product += toProduct * toProduct * squared;
            _carryOff += toCarryOff * toCarryOff * squared;
            _evaporation += (toLost - toCarryOff) * (toLost - toCarryOff) * squared;
        }

        public readonly Estimate OfLost(double value) => With(value, _lost, 1);

        public readonly Estimate OfProduct(double value) => With(value, _product, 100);

        public readonly Estimate OfCarryOff(double value) => With(value, _carryOff, 1);

        public readonly Estimate OfEvaporation(double value) => With(value, _evaporation, 1);

        private static Estimate With(double value, double squares, double divisor) => new(value, Gum.CoverageFactor * Math.Sqrt(squares) / divisor);
    }
}
