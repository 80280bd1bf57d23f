using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Judging;

namespace ShopFluids.Rules.Patterns;

/// <summary>A number with its expanded uncertainty (k = 2).</summary>
public readonly record struct PatternNumber(decimal Value, decimal Uncertainty);

/// <summary>What is known of a charge, by the subjects of the pattern table. What is not in it is not known, and speaks neither for nor against anything.</summary>
/// <param name="Values">The latest values that still count.</param>
/// <param name="Changes">How they have changed; above 0 for a rise.</param>
/// <param name="Judged">How they stand against the limits in force.</param>
/// <param name="OpenRules">Codes of the rules that have a flag open.</param>
/// <param name="Seen">Symptoms that a person has seen.</param>
public sealed record PatternFacts(
    IReadOnlyDictionary<string, PatternNumber> Values,
    IReadOnlyDictionary<string, PatternNumber> Changes,
    IReadOnlyDictionary<string, Direction?> Judged,
    IReadOnlyCollection<string> OpenRules,
    IReadOnlyCollection<string> Seen)
{
    // A change is reckoned from the middle of so many earlier values. Common practice, no source.
    private const int UsualOf = 6;

    private static readonly TimeSpan SensesKeep = TimeSpan.FromDays(7);
    private static readonly TimeSpan RoundsKeep = TimeSpan.FromDays(14);
    private static readonly TimeSpan LaboratoryKeeps = TimeSpan.FromDays(60);

    /// <summary>Nothing is known.</summary>
    public static PatternFacts None { get; } = Of(new Dictionary<string, PatternNumber>(), []);

    /// <summary>Only what a person has seen is known.</summary>
    /// <param name="seen">Symptoms by code.</param>
    public static PatternFacts OnlySeen(IReadOnlyCollection<string> seen)
    {
        ArgumentNullException.ThrowIfNull(seen);
        return Of(new Dictionary<string, PatternNumber>(), seen);
    }

    /// <summary>What is known at the last reading of a charge.</summary>
    /// <param name="sought">What may be looked at.</param>
    public static PatternFacts Of(PatternCase sought)
    {
        ArgumentNullException.ThrowIfNull(sought);
        var (values, changes, judged) = (New<PatternNumber>(), New<PatternNumber>(), New<Direction?>());
        var readings = sought.History.Readings;
        AddWater(values, sought.Water);
        if (readings.Count == 0)
        {
            return new(values, changes, judged, sought.OpenRules, sought.Seen);
        }

        var at = readings[^1].TakenAt;
        values[PatternSubjects.ChargeAge] = new((decimal)(at - sought.FilledAt).TotalDays, 0);
        foreach (var parameter in readings.SelectMany(r => r.Measurements).Select(m => m.Parameter).Distinct(StringComparer.Ordinal))
        {
            AddParameter(sought, parameter, at, values, changes, judged);
        }

        AddMethods(sought, at, values, judged);
        foreach (var (subject, change) in PatternMix.Changes(sought, RoundsKeep))
        {
            changes[subject] = change;
        }

        if (PatternMix.AddedShare(sought, at) is { } share)
        {
            values[PatternSubjects.AddedShare] = share;
        }

        return new(values, changes, judged, sought.OpenRules, sought.Seen);
    }

    /// <summary>For how long a value counts. Common practice, no source; a smell as in rule microbial.</summary>
    /// <param name="parameter">The parameter's code.</param>
    public static TimeSpan Keeps(string parameter) => parameter switch
    {
        ParameterCodes.Odour or ParameterCodes.Foam or ParameterCodes.Fines or ParameterCodes.TrampOil => SensesKeep,
        ParameterCodes.Concentration or ParameterCodes.Ph or ParameterCodes.Level or ParameterCodes.Temperature or ParameterCodes.Bacteria => RoundsKeep,
        _ => LaboratoryKeeps,
    };

    /// <summary>What a reading says of a parameter, by the method that decides.</summary>
    internal static MeasurementFacts? Decisive(ReadingFacts reading, string parameter) =>
        With(reading, parameter, MethodCodes.Titration) ?? reading.Measurements.FirstOrDefault(m => m.Parameter == parameter);

    private static void AddParameter(PatternCase sought, string parameter, DateTime at, Dictionary<string, PatternNumber> values, Dictionary<string, PatternNumber> changes, Dictionary<string, Direction?> judged)
    {
        var all = sought.History.Readings.Select(r => (r.TakenAt, Measured: Decisive(r, parameter))).Where(m => m.Measured is not null).ToList();
        if (all[^1].Measured is not { } now || at - all[^1].TakenAt > Keeps(parameter))
        {
            return;
        }

        values[parameter] = new(now.Value, now.Uncertainty);
        AddJudged(judged, parameter, MeasurementJudge.Judge(now, sought.Limits, sought.FirstFillPh));

        // Level and concentration change also by what is put in and taken out: their changes come from the balance.
        var before = all.SkipLast(1).TakeLast(UsualOf).Select(m => m.Measured).OfType<MeasurementFacts>().ToList();
        if (before.Count > 0 && parameter is not (ParameterCodes.Level or ParameterCodes.Concentration))
        {
            var sorted = before.Select(m => m.Value).Order().ToList();
            var middle = (sorted[(sorted.Count - 1) / 2] + sorted[sorted.Count / 2]) / 2;
            changes[parameter] = new(now.Value - middle, Together(now.Uncertainty, before[^1].Uncertainty));
        }
    }

    private static void AddMethods(PatternCase sought, DateTime at, Dictionary<string, PatternNumber> values, Dictionary<string, Direction?> judged)
    {
        var titrated = sought.History.Readings.LastOrDefault(r => With(r, ParameterCodes.Concentration, MethodCodes.Titration) is not null);
        if (titrated is null || at - titrated.TakenAt > RoundsKeep || With(titrated, ParameterCodes.Concentration, MethodCodes.Titration) is not { } titration)
        {
            return;
        }

        values[PatternSubjects.Titration] = new(titration.Value, titration.Uncertainty);
        AddJudged(judged, PatternSubjects.Titration, MeasurementJudge.Judge(titration, sought.Limits, sought.FirstFillPh));
        if (With(titrated, ParameterCodes.Concentration, MethodCodes.Refractometer) is { } refractometer)
        {
            values[PatternSubjects.MethodGap] = new(refractometer.Value - titration.Value, Together(refractometer.Uncertainty, titration.Uncertainty));
        }
    }

    private static void AddJudged(Dictionary<string, Direction?> judged, string subject, JudgedMeasurement found)
    {
        if (found.Verdict != Verdict.NotMeasured)
        {
            judged[subject] = found.Verdict == Verdict.InRange ? null : found.Direction;
        }
    }

    private static void AddWater(Dictionary<string, PatternNumber> values, WaterFacts water)
    {
        if (water.HardnessMgPerLitre is { } hardness)
        {
            values[PatternSubjects.WaterHardness] = new(hardness, 0);
        }

        if (water.NitrateMgPerLitre is { } nitrate)
        {
            values[PatternSubjects.WaterNitrate] = new(nitrate, 0);
        }
    }

    private static MeasurementFacts? With(ReadingFacts reading, string parameter, string method) =>
        reading.Measurements.FirstOrDefault(m => m.Parameter == parameter && m.Method == method);

    private static decimal Together(decimal one, decimal other) => (decimal)Math.Sqrt((double)((one * one) + (other * other)));

    private static PatternFacts Of(Dictionary<string, PatternNumber> values, IReadOnlyCollection<string> seen) => new(values, New<PatternNumber>(), New<Direction?>(), [], seen);

    private static Dictionary<string, T> New<T>() => new(StringComparer.Ordinal);
}
