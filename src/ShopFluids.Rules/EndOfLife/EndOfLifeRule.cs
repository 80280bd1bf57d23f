using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Registry;

namespace ShopFluids.Rules.EndOfLife;

/// <summary>
/// Flags a charge that is worn out: that treating goes on costs more than it mends. Salts that the water left behind go only with the fluid, so a
/// build-up of them is enough; of age, a pH that stays down and bacteria that come again and again two must hold together. Common practice, no source.
/// </summary>
public sealed class EndOfLifeRule : IRule
{
    /// <summary>The rule's code.</summary>
    public const string RuleCode = "end-of-life";

    /// <summary>Number: from how many days a charge counts as old.</summary>
    public const string OldDays = "oldDays";

    /// <summary>Number: to how many times its first value a salt must have risen.</summary>
    public const string SaltTimes = "saltTimes";

    /// <summary>Number: how far pH must have fallen since the first fill.</summary>
    public const string PhFall = "phFall";

    /// <summary>Number: how many times bacteria must have come back.</summary>
    public const string Comebacks = "comebacks";

    /// <summary>Number: from which count on bacteria are back, log10 CFU/mL.</summary>
    public const string ComebackCount = "comebackCount";

    /// <summary>Number: within how many days the draining is to be done.</summary>
    public const string WithinDays = "withinDays";

    // Salts of the make-up water, by what a shop measures of them. The first values of a charge, of which the middle one counts, are those of the fill.
    private static readonly string[] Salts = [ParameterCodes.Conductivity, ParameterCodes.Chloride, ParameterCodes.Hardness];
    private const int FirstValues = 3;

    // A value a little under what raises the flag keeps it: a top-up thins for a week.
    private const decimal SaltMargin = 0.2m;
    private const decimal PhMargin = 0.1m;

    private static readonly TaskKind[] Drain = [TaskKind.DrainClean];

    /// <inheritdoc/>
    public string Code => RuleCode;

    /// <inheritdoc/>
    public int Version => 1;

    /// <inheritdoc/>
    public IReadOnlyList<RuleNumber> Numbers { get; } =
    [
        new(OldDays, 365, 60, 1825) { IsWhole = true },
        new(SaltTimes, 2.5m, 1.5m, 10),
        new(PhFall, 0.5m, 0.2m, 2),
        new(Comebacks, 3, 2, 10) { IsWhole = true },
        new(ComebackCount, 5, 3, 7),
        new(WithinDays, 14, 1, 90) { IsWhole = true },
    ];

    /// <inheritdoc/>
    public bool AsksForASecondLook => false;

    /// <inheritdoc/>
    public IEnumerable<RuleOpinion> Check(RuleCase reading)
    {
        ArgumentNullException.ThrowIfNull(reading);
        if (!TellsSomething(reading))
        {
            yield break;
        }

        var open = reading.OpenFlag("");
        var numbers = new SortedDictionary<string, decimal>(StringComparer.Ordinal);
        var (age, signs) = (decimal.Floor((decimal)(reading.TakenAt - reading.Input.Standing.FilledAt).TotalDays), 0);
        if (age >= reading.Number(OldDays))
        {
            signs++;
        }

        if (FallOfPh(reading, open is not null) is { } fall)
        {
            (numbers[NumberNames.Drop], signs) = (fall, signs + 1);
        }

        // What is looked back at ends somewhere: what an open flag has counted stays counted.
        var comebacks = Math.Max(ComebacksOf(reading), open?.Numbers.GetValueOrDefault(NumberNames.Comebacks) ?? 0);
        if (comebacks >= reading.Number(Comebacks))
        {
            (numbers[NumberNames.Comebacks], signs) = (comebacks, signs + 1);
        }

        var times = BuildUp(reading, open, numbers);
        if (times is { } risen)
        {
            numbers[NumberNames.SaltTimes] = risen;
        }

        numbers[NumberNames.Days] = age;
        yield return times is not null || signs >= 2
            ? RuleOpinion.Of(Raise(open?.Numbers ?? numbers, reading))
            : RuleOpinion.None("");
    }

    /// <inheritdoc/>
    public IReadOnlyList<TaskKind> WorkFor(FlagKey flag, bool isConfirmed) => Drain;

    /// <inheritdoc/>
    public TimeSpan? WorkWithin(RaisedFlag flag)
    {
        ArgumentNullException.ThrowIfNull(flag);
        return TimeSpan.FromDays((double)flag.Numbers.GetValueOrDefault(NumberNames.WithinDays, Numbers.First(n => n.Name == WithinDays).Default));
    }

    private RaisedFlag Raise(IReadOnlyDictionary<string, decimal> numbers, RuleCase reading) => new(
        RuleCode,
        Version,
        "",
        Verdict.Warning,
        Direction.None,
        new SortedDictionary<string, decimal>(numbers.ToDictionary(), StringComparer.Ordinal) { [NumberNames.WithinDays] = reading.Number(WithinDays) });

    // Age alone is never new, and a level or a smell tells nothing of wear.
    private static bool TellsSomething(RuleCase reading)
    {
        if (reading.Measured(ParameterCodes.Ph) is not null || reading.Measured(ParameterCodes.Bacteria) is not null)
        {
            return true;
        }

        foreach (var salt in Salts)
        {
            if (reading.Measured(salt) is not null)
            {
                return true;
            }
        }

        return false;
    }

    // Two readings in a row: one low pH is a slip, or oil on the electrode.
    private static decimal? FallOfPh(RuleCase reading, bool isOpen)
    {
        if (reading.Input.Standing.FirstFillPh is not { } first || LastTwo(reading, ParameterCodes.Ph) is not { } two)
        {
            return null;
        }

        var fall = first - Math.Max(two.Now, two.Before);
        return fall >= reading.Number(PhFall) - (isOpen ? PhMargin : 0) ? fall : null;
    }

    // The salt that has risen most, where it stood as high in two readings in a row. The first values are those that the flag was raised by: with
    // many readings they have gone out of sight meanwhile, and what is in sight has risen already.
    private static decimal? BuildUp(RuleCase reading, OpenFlag? open, SortedDictionary<string, decimal> numbers)
    {
        decimal? most = null;
        foreach (var salt in Salts)
        {
            var before = reading.Before(salt);
            var isKnown = open is not null && open.Numbers.ContainsKey(FirstOf(salt));
            if ((before.Count < FirstValues && !isKnown) || LastTwo(reading, salt) is not { } two)
            {
                continue;
            }

            var first = isKnown && open is not null ? open.Numbers[FirstOf(salt)] : before.Take(FirstValues).Select(p => p.Value).Order().ElementAt(FirstValues / 2);
            numbers[FirstOf(salt)] = first;
            if (first > 0 && Math.Min(two.Now, two.Before) / first is var times && times >= reading.Number(SaltTimes) - (open is null ? 0 : SaltMargin) && !(most > times))
            {
                most = decimal.Round(times, 2);
            }
        }

        return most;
    }

    private static string FirstOf(string salt) => $"{NumberNames.First}:{salt}";

    // How often a count crossed the line from below: each time something was done about it, and it came back.
    private static int ComebacksOf(RuleCase reading)
    {
        var (count, wasUnder, line) = (0, false, reading.Number(ComebackCount));
        foreach (var past in reading.Before(ParameterCodes.Bacteria))
        {
            Count(past.Value);
        }

        if (reading.Measured(ParameterCodes.Bacteria) is { } now)
        {
            Count(now.Value);
        }

        return count;

        void Count(decimal value)
        {
            count += wasUnder && value >= line ? 1 : 0;
            wasUnder = value < line;
        }
    }

    // Of this reading and the one before it; what this one leaves out stands as it was last.
    private static (decimal Now, decimal Before)? LastTwo(RuleCase reading, string parameter)
    {
        var (now, history) = (reading.Measured(parameter)?.Value, reading.Input.History.Readings);
        for (var i = history.Count - 1; i >= 0; i--)
        {
            if (history[i].Decisive(parameter) is { } earlier)
            {
                if (now is { } later)
                {
                    return (later, earlier.Value);
                }

                now = earlier.Value;
            }
        }

        return null;
    }
}
