using ShopFluids.Calculations.Concentrations;
using ShopFluids.Calculations.Uncertainties;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Registry;

namespace ShopFluids.Rules.Disagreement;

/// <summary>
/// Flags a refractometer and a titration of one sample that differ beyond their uncertainty. Tramp oil disturbs the refractometer and not the
/// titration (DGUV Regel 109-003, 7.1.1): where the refractometer is high, nobody may dilute by it. About the sump, not about the
/// concentration: which of the two is right is not known. Side high: the refractometer reads more; low: the titration does.
/// </summary>
public sealed class DisagreementRule : IRule
{
    /// <summary>The rule's code.</summary>
    public const string RuleCode = "disagreement";

    /// <summary>Number: differences up to this are left alone, % v/v.</summary>
    public const string LeastDifference = "leastDifference";

    // Under this a titration says nothing, as in the calculations.
    private const decimal LeastPercent = 0.01m;

    private static readonly TaskKind[] TakeTheOilOff = [TaskKind.Skim];
    private static readonly TaskKind[] CheckTheInstruments = [TaskKind.Calibrate];

    /// <inheritdoc/>
    public string Code => RuleCode;

    /// <inheritdoc/>
    public int Version => 1;

    /// <inheritdoc/>
    public IReadOnlyList<RuleNumber> Numbers { get; } = [new(LeastDifference, 0.5m, 0.1m, 5)];

    /// <inheritdoc/>
    public IEnumerable<RuleOpinion> Check(RuleCase reading)
    {
        ArgumentNullException.ThrowIfNull(reading);
        if (reading.Measured(ParameterCodes.Concentration) is null
            || OfTheDay(reading, MethodCodes.Refractometer) is not { Value: >= 0 and <= 100 } refractometer
            || OfTheDay(reading, MethodCodes.Titration) is not { Value: >= LeastPercent and <= 100 } titration)
        {
            yield break;
        }

        var compared = MethodDisagreement.Compare(Estimate(refractometer), Estimate(titration));
        var isLarge = Math.Abs(refractometer.Value - titration.Value) > reading.Number(LeastDifference);
        yield return compared.Finding == MethodFinding.None || !isLarge
            ? RuleOpinion.None("")
            : RuleOpinion.Of(Raise(refractometer, titration, compared));
    }

    /// <inheritdoc/>
    public IReadOnlyList<TaskKind> WorkFor(FlagKey flag, bool isConfirmed) => flag.Direction == Direction.High ? TakeTheOilOff : CheckTheInstruments;

    private RaisedFlag Raise(MeasurementFacts refractometer, MeasurementFacts titration, MethodComparison compared)
    {
        var numbers = new SortedDictionary<string, decimal>(StringComparer.Ordinal)
        {
            [NumberNames.Refractometer] = refractometer.Value,
            [NumberNames.Titration] = titration.Value,
            [NumberNames.Ratio] = decimal.Round((decimal)compared.Ratio.Value, 3),
            [NumberNames.RatioUncertainty] = decimal.Round((decimal)compared.Ratio.ExpandedUncertainty, 3),
        };
        return new(Code, Version, "", Verdict.Warning, compared.Finding == MethodFinding.RefractometerHigh ? Direction.High : Direction.Low, numbers);
    }

    // The sample may be titrated later on the day on which it was read: of this reading, otherwise of the shop day's last.
    private static MeasurementFacts? OfTheDay(RuleCase reading, string method)
    {
        static MeasurementFacts? In(ReadingFacts facts, string method) => facts.Measurements.FirstOrDefault(m => m.Parameter == ParameterCodes.Concentration && m.Method == method);
        if (In(reading.Input.Reading, method) is { } now)
        {
            return now;
        }

        var day = reading.Input.Calendar.ShopDayOf(reading.TakenAt);
        var moved = reading.Input.History.Movements.Count == 0 ? DateTime.MinValue : reading.Input.History.Movements[^1].At;
        for (var i = reading.Input.History.Readings.Count - 1; i >= 0; i--)
        {
            var earlier = reading.Input.History.Readings[i];
            if (earlier.TakenAt <= moved || reading.Input.Calendar.ShopDayOf(earlier.TakenAt) != day)
            {
                return null;
            }

            if (In(earlier, method) is { } found)
            {
                return found;
            }
        }

        return null;
    }

    private static Estimate Estimate(MeasurementFacts measured) => new((double)measured.Value, (double)measured.Uncertainty);
}
