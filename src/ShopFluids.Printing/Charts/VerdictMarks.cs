using ShopFluids.Core.Sheets;
using ShopFluids.Rules;

namespace ShopFluids.Printing.Charts;

/// <summary>Which mark stands for which verdict.</summary>
public static class VerdictMarks
{
    public static VerdictMark Of(SheetVerdict verdict) => verdict.IsLate ? VerdictMark.Late : Of(verdict.Verdict, verdict.Direction);

    /// <summary>The mark of a verdict. A warning without a direction points up, like one that is high.</summary>
    public static VerdictMark Of(Verdict verdict, Direction direction) => (verdict, direction) switch
    {
        (Verdict.InRange, _) => VerdictMark.InRange,
        (Verdict.Warning, Direction.Low) => VerdictMark.WarningLow,
        (Verdict.Warning, _) => VerdictMark.WarningHigh,
        (Verdict.Action, Direction.Low) => VerdictMark.ActionLow,
        (Verdict.Action, Direction.High) => VerdictMark.ActionHigh,
        (Verdict.Action, _) => VerdictMark.Action,
        _ => VerdictMark.NotMeasured,
    };
}
