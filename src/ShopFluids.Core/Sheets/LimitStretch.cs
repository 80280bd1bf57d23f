using ShopFluids.Core.Charges;
using ShopFluids.Core.Limits;
using ShopFluids.Core.Setup;

namespace ShopFluids.Core.Sheets;

/// <summary>A stretch of time in which the same limits judged a sump.</summary>
/// <param name="ToUtc">Where the next stretch begins or the fluid was drained.</param>
public sealed record LimitStretch(DateTime FromUtc, DateTime ToUtc, LimitsInForce Limits)
{
    /// <summary>The stretches of a period, oldest first. Without a charge nothing judges.</summary>
    public static IReadOnlyList<LimitStretch> Over(ShopSetup setup, Guid sumpId, IReadOnlyList<Charge> charges, DateTime fromUtc, DateTime toUtc)
    {
        ArgumentNullException.ThrowIfNull(setup);
        ArgumentNullException.ThrowIfNull(charges);
        var stretches = new List<LimitStretch>();
        foreach (var charge in charges.OrderBy(c => c.FilledAtUtc))
        {
            var from = charge.FilledAtUtc > fromUtc ? charge.FilledAtUtc : fromUtc;
            var to = charge.DrainedAtUtc < toUtc ? charge.DrainedAtUtc.Value : toUtc;
            if (from >= to)
            {
                continue;
            }

            var changes = setup.LimitSets.Where(l => l.SumpId == sumpId || l.FluidId == charge.FluidId)
                .Select(l => l.ValidFromUtc).Where(c => c > from && c < to).Distinct().Order().ToList();
            var starts = changes.Prepend(from).ToList();
            stretches.AddRange(starts.Select((start, n) => new LimitStretch(start, n + 1 < starts.Count ? starts[n + 1] : to, setup.LimitsAt(sumpId, charge.FluidId, start))));
        }

        return stretches;
    }
}
