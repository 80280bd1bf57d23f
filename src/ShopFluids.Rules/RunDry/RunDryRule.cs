using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Limit;
using ShopFluids.Rules.Registry;

namespace ShopFluids.Rules.RunDry;

/// <summary>
/// Flags a sump that holds too little above the pump's intake for what is on its way while the pump runs. Where the pump's flow and the round
/// trip are not known, what is on its way is taken as a share of what the sump holds between intake and full mark: common practice, no source.
/// </summary>
public sealed class RunDryRule : IRule
{
    /// <summary>The rule's code.</summary>
    public const string RuleCode = "run-dry";

    /// <summary>Number: what is on its way while the pump runs, L; 0 where it is not known.</summary>
    public const string NeededLitres = "neededLitres";

    /// <summary>Number: where it is not known, the share of what the sump holds between intake and full mark, %.</summary>
    public const string NeededPercent = "neededPercent";

    private static readonly TaskKind[] TopUp = [TaskKind.Adjust];

    /// <inheritdoc/>
    public string Code => RuleCode;

    /// <inheritdoc/>
    public int Version => 2;

    /// <inheritdoc/>
    public IReadOnlyList<RuleNumber> Numbers { get; } = [new(NeededLitres, 0, 0, 100_000), new(NeededPercent, 20, 1, 100)];

    /// <inheritdoc/>
    public IEnumerable<RuleOpinion> Check(RuleCase reading)
    {
        ArgumentNullException.ThrowIfNull(reading);
        var (sump, level) = (reading.Input.Sump, reading.Measured(ParameterCodes.Level));
        if (level is null || level.Value < 0 || (double)level.Value > sump.Geometry.BrimMm)
        {
            yield break;
        }

        var atIntake = sump.Geometry.VolumeLitresAt(sump.PumpIntakeMm);
        var usable = Math.Max(0, sump.Geometry.VolumeLitresAt((double)level.Value) - atIntake);
        var range = sump.Geometry.VolumeLitresAt(sump.FullMarkMm) - atIntake;
        var isGuessed = reading.Number(NeededLitres) <= 0;
        var needed = isGuessed ? range * (double)reading.Number(NeededPercent) / 100 : (double)reading.Number(NeededLitres);
        var isBare = (double)level.Value <= sump.PumpIntakeMm;

        // The level's own action limit says the same and asks for the same; only a bare intake is said besides.
        yield return isBare || (usable < needed && !IsBeyondAction(level, reading.Input.Limits))
            ? RuleOpinion.Of(Raise(level.Value, usable, needed, isGuessed, isBare))
            : RuleOpinion.None(ParameterCodes.Level);
    }

    /// <inheritdoc/>
    public IReadOnlyList<TaskKind> WorkFor(FlagKey flag, bool isConfirmed) => TopUp;

    private static bool IsBeyondAction(MeasurementFacts level, IReadOnlyList<ParameterLimits> limits)
    {
        foreach (var row in limits)
        {
            if (row.Parameter == ParameterCodes.Level && row.Basis == LimitBasis.Value && LimitRow.Judge(level.Value, row) is { Verdict: Verdict.Action, Direction: Direction.Low })
            {
                return true;
            }
        }

        return false;
    }

    private RaisedFlag Raise(decimal level, double usable, double needed, bool isGuessed, bool isBare)
    {
        var numbers = new SortedDictionary<string, decimal>(StringComparer.Ordinal)
        {
            [NumberNames.Value] = level,
            [NumberNames.UsableLitres] = decimal.Round((decimal)usable, 1),
            [NumberNames.NeededLitres] = decimal.Round((decimal)needed, 1),
        };
        if (isGuessed)
        {
            numbers[NumberNames.NeededIsGuessed] = 1;
        }

        return new(Code, Version, ParameterCodes.Level, isBare ? Verdict.Action : Verdict.Warning, Direction.Low, numbers);
    }
}
