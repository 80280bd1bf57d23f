using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Limit;
using ShopFluids.Rules.Registry;

namespace ShopFluids.Rules.Microbial;

/// <summary>
/// Flags what bacteria commonly do before a count is out of its band: pH that has fallen at a steady concentration while the fluid smells, and a
/// slide that has grown by a decade since the last. Trade knowledge from memory; pH is no substitute for a slide, and the rule claims no count.
/// </summary>
public sealed class MicrobialRule : IRule
{
    /// <summary>The rule's code.</summary>
    public const string RuleCode = "microbial";

    /// <summary>Number: how far pH must have fallen.</summary>
    public const string LeastFall = "leastFall";

    /// <summary>Number: how far the concentration may lie from its usual value to be steady, %.</summary>
    public const string SteadyPercent = "steadyPercent";

    /// <summary>Number: by how many powers of ten a slide must have grown.</summary>
    public const string LeastGrowth = "leastGrowth";

    /// <summary>Number: slides under this are left alone, log10 CFU/mL.</summary>
    public const string LeastCount = "leastCount";

    // From memory: how many readings tell what is usual, how far above the flagged value pH counts as falling no further, how long a smell keeps.
    private const decimal Slight = 1;
    private const decimal Sour = 2;
    private const decimal RottenEgg = 3;

    // A fall is reckoned from the middle of so many earlier readings.
    private const int UsualOf = 6;
    private const int FewestBefore = 3;
    private const decimal MarginToClear = 0.1m;

    private static readonly TimeSpan SmellKeeps = TimeSpan.FromDays(7);
    private static readonly TaskKind[] LetAirIn = [TaskKind.Skim, TaskKind.Circulate];
    private static readonly TaskKind[] Drain = [TaskKind.DrainClean];

    /// <inheritdoc/>
    public string Code => RuleCode;

    /// <inheritdoc/>
    public int Version => 2;

    /// <inheritdoc/>
    public IReadOnlyList<RuleNumber> Numbers { get; } =
    [
        new(LeastFall, 0.3m, 0.1m, 2),
        new(SteadyPercent, 15, 5, 50),
        new(LeastGrowth, 1, 0.5m, 3),
        new(LeastCount, 3.5m, 2, 5),
    ];

    /// <inheritdoc/>
    public IEnumerable<RuleOpinion> Check(RuleCase reading)
    {
        ArgumentNullException.ThrowIfNull(reading);
        if (reading.Measured(ParameterCodes.Ph) is { } ph && OfPh(reading, ph) is { } ofPh)
        {
            yield return ofPh;
        }

        if (reading.Measured(ParameterCodes.Bacteria) is { } slide)
        {
            yield return OfSlide(reading, slide);
        }
    }

    /// <inheritdoc/>
    public IReadOnlyList<TaskKind> WorkFor(FlagKey flag, bool isConfirmed) => flag.Severity == Verdict.Action ? Drain : LetAirIn;

    private RuleOpinion? OfPh(RuleCase reading, MeasurementFacts ph)
    {
        if (Odour(reading) is not { } odour)
        {
            return null;
        }

        if (reading.OpenFlag(ParameterCodes.Ph) is { } open)
        {
            var flagged = open.Numbers.GetValueOrDefault(NumberNames.Value);
            var hasRecovered = open.Numbers.GetValueOrDefault(NumberNames.Usual) - ph.Value < reading.Number(LeastFall) - MarginToClear;
            return hasRecovered || (odour <= Slight && ph.Value >= flagged - MarginToClear)
                ? RuleOpinion.None(ParameterCodes.Ph)
                : RuleOpinion.Of(Raise(open.Numbers, odour, open.Severity));
        }

        var usual = Usual(reading, ParameterCodes.Ph);
        if (usual is null)
        {
            return null;
        }

        var (middle, uncertainty) = usual.Value;
        var fall = middle - ph.Value;
        var isBeyondNoise = fall * fall > (ph.Uncertainty * ph.Uncertainty) + (uncertainty * uncertainty);
        return odour >= Sour && fall >= reading.Number(LeastFall) && isBeyondNoise && IsSteady(reading) is var steady && steady != false
            ? RuleOpinion.Of(Raise(Numbered(ph.Value, middle, odour, isSteady: steady is not null), odour, Verdict.Warning))
            : RuleOpinion.None(ParameterCodes.Ph);
    }

    private static SortedDictionary<string, decimal> Numbered(decimal ph, decimal usual, decimal odour, bool isSteady)
    {
        var numbers = new SortedDictionary<string, decimal>(StringComparer.Ordinal) { [NumberNames.Value] = ph, [NumberNames.Usual] = usual, [NumberNames.Odour] = odour };
        if (isSteady)
        {
            numbers[NumberNames.Steady] = 1;
        }

        return numbers;
    }

    // Rotten egg makes it action, and only another charge takes that back.
    private RaisedFlag Raise(IReadOnlyDictionary<string, decimal> numbers, decimal odour, Verdict atLeast) => new(
        Code,
        Version,
        ParameterCodes.Ph,
        odour >= RottenEgg ? Verdict.Action : atLeast,
        Direction.Low,
        new SortedDictionary<string, decimal>(numbers.ToDictionary(), StringComparer.Ordinal) { [NumberNames.Odour] = Math.Max(odour, numbers.GetValueOrDefault(NumberNames.Odour)) });

    // A count over its band is the limit's to say.
    private RuleOpinion OfSlide(RuleCase reading, MeasurementFacts slide)
    {
        var before = reading.Before(ParameterCodes.Bacteria, most: 1);
        var isOverTheBand = reading.Input.Limits.Any(l => l.Parameter == ParameterCodes.Bacteria && l.Basis == LimitBasis.Value && LimitRow.Judge(slide.Value, l) is { IsBeyond: true });
        return before.Count > 0 && !isOverTheBand && slide.Value >= reading.Number(LeastCount) && slide.Value - before[^1].Value >= reading.Number(LeastGrowth)
            ? RuleOpinion.Of(new(Code, Version, ParameterCodes.Bacteria, Verdict.Warning, Direction.High, new SortedDictionary<string, decimal>(StringComparer.Ordinal)
            {
                [NumberNames.Value] = slide.Value,
                [NumberNames.Previous] = before[^1].Value,
            }))
            : RuleOpinion.None(ParameterCodes.Bacteria);
    }

    // Of this reading, or of one not long before: not every visit asks the nose.
    private static decimal? Odour(RuleCase reading)
    {
        if (reading.Measured(ParameterCodes.Odour) is { } now)
        {
            return now.Value;
        }

        return reading.Input.Standing.Latest.TryGetValue(ParameterCodes.Odour, out var latest) && reading.TakenAt - latest.TakenAt <= SmellKeeps && latest.TakenAt <= reading.TakenAt
            ? latest.Value
            : null;
    }

    // Null where this reading tells no concentration, or the charge has no usual one yet: then nothing speaks against it.
    private static bool? IsSteady(RuleCase reading)
    {
        if (reading.Measured(ParameterCodes.Concentration) is not { } now || Usual(reading, ParameterCodes.Concentration) is not { Middle: > 0 } usual)
        {
            return null;
        }

        return Math.Abs(now.Value - usual.Middle) <= Math.Max(now.Uncertainty, usual.Middle * reading.Number(SteadyPercent) / 100);
    }

    private static (decimal Middle, decimal Uncertainty)? Usual(RuleCase reading, string parameter)
    {
        var before = reading.Before(parameter, UsualOf);
        if (before.Count < FewestBefore)
        {
            return null;
        }

        var last = before.Select(p => p.Value).Order().ToList();
        var middle = last.Count % 2 == 1 ? last[last.Count / 2] : (last[(last.Count / 2) - 1] + last[last.Count / 2]) / 2;
        return (middle, before[^1].Uncertainty);
    }
}
