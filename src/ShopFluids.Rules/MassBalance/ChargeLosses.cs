using ShopFluids.Calculations.Balances;
using ShopFluids.Rules.Facts;

namespace ShopFluids.Rules.MassBalance;

/// <summary>Why nothing can be said of where the fluid of a charge went.</summary>
public enum LossesGap
{
    /// <summary>Nothing is missing.</summary>
    None = 0,

    /// <summary>There are not two readings that tell both level and concentration.</summary>
    TooFewReadings = 1,

    /// <summary>They lie within less than <see cref="ChargeLosses.LeastDays"/>.</summary>
    TooShort = 2,

    /// <summary>There is as good as no concentrate in the sump.</summary>
    NoConcentrate = 3,
}

/// <summary>Where the fluid of a charge went, from its first reading of level and concentration to its last: mass balance, see <see cref="Calculations.Balances.Balance"/>.</summary>
/// <param name="From">The first of the readings, UTC; null where there is none.</param>
/// <param name="To">The last, UTC.</param>
/// <param name="Readings">How many tell both level and concentration.</param>
/// <param name="PutInLitres">Water and concentrate put in between them, L.</param>
/// <param name="TakenOutLitres">Mix taken out and recorded, L.</param>
/// <param name="Balance">Null where <paramref name="Gap"/> says why.</param>
public sealed record ChargeLosses(DateTime? From, DateTime? To, int Readings, double PutInLitres, double TakenOutLitres, ChargeBalance? Balance, LossesGap Gap)
{
    /// <summary>Over a shorter time a level tells more of who read it than of the sump, days. Common practice, no source.</summary>
    public const double LeastDays = 2;

    /// <summary>Works out the balance of a charge.</summary>
    /// <param name="history">Its readings and movements.</param>
    /// <param name="sump">The sump.</param>
    /// <param name="pouredWithinPercent">How far an amount may be off, %.</param>
    /// <param name="hoursPerDay">Running hours on a day; null where they are not known.</param>
    public static ChargeLosses Over(ChargeHistory history, SumpFacts sump, double pouredWithinPercent, double? hoursPerDay)
    {
        ArgumentNullException.ThrowIfNull(history);
        ArgumentNullException.ThrowIfNull(sump);
        var full = Full(history, sump, hoursPerDay);
        var (from, to) = full.Count == 0 ? (default(DateTime?), default(DateTime?)) : (full[0].At, full[^1].At);
        if (full.Count < 2 || (to - from)?.TotalDays < LeastDays)
        {
            return new(from, to, full.Count, 0, 0, null, full.Count < 2 ? LossesGap.TooFewReadings : LossesGap.TooShort);
        }

        var start = full[0].At;
        var between = history.Movements.Where(m => m.At >= start && m.At < full[^1].At).OrderBy(m => m.At).ToList();
        var terms = between.SelectMany(m => BalanceTerms.Of(m, start, full.Last(r => r.At <= m.At).Reading.ConcentrationPercent, pouredWithinPercent)).ToList();
        var balance = Calculations.Balances.Balance.TryOver([.. full.Select(r => r.Reading)], terms);
        return new(
            from,
            to,
            full.Count,
            between.Sum(m => m.WaterLitres + m.ConcentrateLitres),
            between.Sum(m => m.RemovedLitres),
            balance,
            balance is null ? LossesGap.NoConcentrate : LossesGap.None);
    }

    // Of two readings at one moment the later stored one counts, as it does for the standing.
    private static List<(DateTime At, SumpReading Reading)> Full(ChargeHistory history, SumpFacts sump, double? hoursPerDay)
    {
        var full = new List<(DateTime At, SumpReading Reading)>();
        foreach (var facts in history.Readings)
        {
            var start = full.Count == 0 ? facts.TakenAt : full[0].At;
            if (BalanceTerms.Of(facts, sump, start, hoursPerDay) is not { } reading)
            {
                continue;
            }

            if (full.Count > 0 && reading.Day - full[^1].Reading.Day < Calculations.Balances.Balance.ShortestDays)
            {
                full.RemoveAt(full.Count - 1);
                reading = BalanceTerms.Of(facts, sump, full.Count == 0 ? facts.TakenAt : full[0].At, hoursPerDay) ?? reading;
            }

            full.Add((facts.TakenAt, reading));
        }

        return full;
    }
}
