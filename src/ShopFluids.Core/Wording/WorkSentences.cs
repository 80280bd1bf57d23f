using ShopFluids.Core.Care;
using ShopFluids.Rules;
using ShopFluids.Rules.Advice;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Core.Wording;

/// <summary>What goes with planned work: how it is done, how long it takes, what to mind, and why a test is due when it is.</summary>
public static class WorkSentences
{
    /// <summary>A kind of work that the care plan asks for: an inspection looks for no cause.</summary>
    public static string Planned(TaskKind kind) => kind == TaskKind.Inspect ? Texts.Task_InspectPlanned : Sentences.Task(kind);

    /// <summary>A step by its own words, where it has some.</summary>
    public static string Name(CareStep step)
    {
        ArgumentNullException.ThrowIfNull(step);
        return step.Needs is { What.Length: > 0 } needs ? needs.What : Planned(step.Kind);
    }

    /// <summary>The cautions of a kind of work, the most important first.</summary>
    public static IReadOnlyList<Caution> CautionsOf(TaskKind kind) => CautionAdvice.ForWork(kind);

    /// <summary>Why a test whose interval follows the risk is due when it is.</summary>
    public static string WhyThen(this Sentences say, TestReason why)
    {
        ArgumentNullException.ThrowIfNull(say);
        ArgumentNullException.ThrowIfNull(why);
        var (days, accepted) = (say.Format.Count(why.Days), say.Format.Number(why.AcceptedPercent, why.AcceptedPercent == decimal.Truncate(why.AcceptedPercent) ? 0 : 1));
        string OfLimit(string low, string high) => say.Format.Say(
            why.Side == Direction.Low ? low : high, say.Parameter(why.Parameter), why.Limit is { } limit ? say.Value(why.Parameter, limit) : "", accepted, days, say.Format.Count(why.CeilingDays));
        return why.SetBy switch
        {
            TestDaySetBy.Usual => say.Format.Say(Texts.TestDay_Usual, days),
            TestDaySetBy.Floor => OfLimit(Texts.TestDay_FloorLow, Texts.TestDay_FloorHigh),
            TestDaySetBy.Risk => OfLimit(Texts.TestDay_RiskLow, Texts.TestDay_RiskHigh),
            TestDaySetBy.Ceiling => say.Format.Say(Texts.TestDay_Ceiling, accepted, days),
            _ => throw new ArgumentOutOfRangeException(nameof(why), why.SetBy, "There is no text for this."),
        };
    }
}
