using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.FirstFillDrop;
using ShopFluids.Rules.Limit;

namespace ShopFluids.Rules.Judging;

/// <summary>The verdict on a single measurement: the worst of all limits of its parameter, without memory.</summary>
public static class MeasurementJudge
{
    // In this order: of two that say the same, the limit on the value is told.
    internal static readonly LimitBasis[] Bases = [LimitBasis.Value, LimitBasis.DropFromFirstFill];

    /// <summary>Judges a measurement. A row without limits, or a drop row before the first fill's value is known, does not judge.</summary>
    /// <param name="measurement">The measurement.</param>
    /// <param name="limits">All limits in force.</param>
    /// <param name="firstFillPh">The value from which a fall is reckoned.</param>
    public static JudgedMeasurement Judge(MeasurementFacts measurement, IReadOnlyList<ParameterLimits> limits, decimal? firstFillPh)
    {
        var worst = new JudgedMeasurement(measurement.Parameter, measurement.Method, Verdict.NotMeasured, Direction.None, null);
        foreach (var basis in Bases)
        {
            foreach (var row in limits)
            {
                if (row.Basis == basis
                    && row.Parameter == measurement.Parameter
                    && Quantity(measurement.Value, row, firstFillPh) is { } quantity
                    && LimitRow.Judge(quantity, row) is { } judged
                    && judged.Verdict > worst.Verdict)
                {
                    worst = worst with { Verdict = judged.Verdict, Direction = SideOf(row, judged.Direction), Limit = judged.Crossed, Basis = judged.IsBeyond ? row.Basis : LimitBasis.Value };
                }
            }
        }

        return worst;
    }

    /// <summary>The verdict on a reading: the worst of its measurements.</summary>
    /// <param name="judged">Its measurements.</param>
    public static Verdict Worst(IEnumerable<JudgedMeasurement> judged) => judged.Select(j => j.Verdict).DefaultIfEmpty(Verdict.NotMeasured).Max();

    /// <summary>What a row is held against: the value, or its fall from the first fill; null while that is unknown.</summary>
    public static decimal? Quantity(decimal value, ParameterLimits row, decimal? firstFillPh) => row.Basis switch
    {
        LimitBasis.Value => value,
        LimitBasis.DropFromFirstFill => firstFillPh is { } first ? FirstFillDropRule.DropOf(first, value) : null,
        _ => throw new ArgumentOutOfRangeException(nameof(row), row.Basis, "Not a basis of limits."),
    };

    /// <summary>The side as people see it: too great a fall puts the value low.</summary>
    public static Direction SideOf(ParameterLimits row, Direction direction) =>
        row.Basis == LimitBasis.DropFromFirstFill && direction == Direction.High ? Direction.Low : direction;
}
