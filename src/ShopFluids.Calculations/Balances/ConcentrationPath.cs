namespace ShopFluids.Calculations.Balances;

/// <summary>
/// The concentration in a sump between its readings, averaged over time. Between two readings the volume and the concentrate that
/// went missing are taken as lost evenly over the time, recorded movements as made at their time; so c(t) = P(t) / V(t) meets both
/// readings, and each stretch between two movements is averaged by Simpson's rule. With a constant rate of carry-off, D = 100 L_c / c̄ is
/// exact for this average.
/// </summary>
internal static class ConcentrationPath
{
    public static double MeanPercent(IReadOnlyList<SumpReading> readings, IReadOnlyList<Movement> movements)
    {
        var (sum, next) = (0.0, 0);
        for (var i = 1; i < readings.Count; i++)
        {
            var start = next;
            while (next < movements.Count && movements[next].Day < readings[i].Day)
            {
                next++;
            }

            sum += (readings[i].Day - readings[i - 1].Day) * Between(readings[i - 1], readings[i], movements, start, next);
        }

        return sum / (readings[^1].Day - readings[0].Day);
    }

    private static double Between(SumpReading before, SumpReading after, IReadOnlyList<Movement> movements, int start, int end)
    {
        var (volume, product) = (before.VolumeLitres.Value, before.VolumeLitres.Value * before.ConcentrationPercent.Value);
        var (lost, productLost) = (volume - after.VolumeLitres.Value, product - (after.VolumeLitres.Value * after.ConcentrationPercent.Value));
        for (var i = start; i < end; i++)
        {
            lost += movements[i].Sign * movements[i].Litres.Value;
            productLost += movements[i].Sign * movements[i].Litres.Value * movements[i].ConcentrationPercent.Value;
        }

        var (days, day, sum) = (after.Day - before.Day, before.Day, 0.0);
        for (var i = start; i <= end; i++)
        {
            var until = i < end ? movements[i].Day : after.Day;
            var share = (until - day) / days;
            if (share > 0)
            {
                var (left, productLeft) = (volume - (lost * share), product - (productLost * share));
                sum += share * Simpson(
                    Percent(product, volume),
                    Percent((product + productLeft) / 2, (volume + left) / 2),
                    Percent(productLeft, left));
                (volume, product, day) = (left, productLeft, until);
            }

            if (i < end)
            {
                volume += movements[i].Sign * movements[i].Litres.Value;
                product += movements[i].Sign * movements[i].Litres.Value * movements[i].ConcentrationPercent.Value;
            }
        }

        // NaN where the path is impossible (an empty sump, more concentrate than fluid): the readings are all there is to go by.
        return double.IsNaN(sum) ? (before.ConcentrationPercent.Value + after.ConcentrationPercent.Value) / 2 : sum;
    }

    private static double Percent(double product, double volume)
    {
        var percent = product / volume;
        return volume > 0 && percent is >= -1e-9 and <= 100.000001 ? percent : double.NaN;
    }

    private static double Simpson(double start, double middle, double end) => (start + (4 * middle) + end) / 6;
}
