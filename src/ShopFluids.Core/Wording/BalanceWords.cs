using ShopFluids.Calculations.Balances;

namespace ShopFluids.Core.Wording;

/// <summary>What is wrong with a mass balance, and what to look for.</summary>
public static class BalanceWords
{
    public static string Fault(BalanceFault fault) => fault switch
    {
        BalanceFault.EvaporationNegative => Texts.Bench_BalanceWaterGained,
        BalanceFault.CarryOffNegative => Texts.Bench_BalanceConcentrateGained,
        BalanceFault.BothNegative => Texts.Bench_BalanceBothGained,
        _ => Texts.Bench_BalanceCloses,
    };

    public static string Causes(BalanceFinding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        return string.Join("; ", finding.LikelyCauses.Select(Cause));
    }

    private static string Cause(BalanceCause cause) => cause switch
    {
        BalanceCause.UnrecordedWater => Texts.Bench_CauseUnrecordedWater,
        BalanceCause.UnrecordedConcentrate => Texts.Bench_CauseUnrecordedConcentrate,
        BalanceCause.ForeignWater => Texts.Bench_CauseForeignWater,
        BalanceCause.SplittingEmulsion => Texts.Bench_CauseSplitting,
        BalanceCause.OilSkimmedWithFluid => Texts.Bench_CauseSkimmed,
        BalanceCause.ContaminationReadAsCoolant => Texts.Bench_CauseContamination,
        _ => throw new ArgumentOutOfRangeException(nameof(cause), cause, "There is no text for this cause."),
    };
}
