using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Finds;
using ShopFluids.Core.Wording;
using ShopFluids.Rules.Facts;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Setup.Care;

/// <summary>The interval of a step in words.</summary>
internal static class StepWords
{
    public static string Interval(CareStep step, CareView view) => Interval(step, view.Words, view.WeeklyHours);

    /// <param name="weeklyHours">Running hours a week of the sump's machine that runs most.</param>
    public static string Interval(CareStep step, DeskWords words, decimal weeklyHours)
    {
        var format = words.Format;
        var (days, basis) = (format.Count(step.IntervalDays), CareDraft.BasisWord(step.Basis));
        return step switch
        {
            { Basis: IntervalBasis.AfterFill, IntervalDays: 1 } => Texts.Setup_DayAfterFill,
            { Basis: IntervalBasis.AfterFill } => format.Say(Texts.Setup_DaysAfterFill, days),
            { Basis: IntervalBasis.AfterFlag } => format.Say(Texts.Setup_DaysAfterFlag, days, step.EventParameter is { } parameter ? words.Sentences.Parameter(parameter) : Texts.Setup_AnyFlag),
            { IntervalHours: { } hours } => format.Say(Texts.Setup_EveryHours, format.Count(hours), format.Count(step.ToFacts(weeklyHours).IntervalDays)),
            { Condition: { } condition } => format.Say(
                Texts.Setup_EveryByFind,
                format.Count(condition.FloorDays),
                format.Count(condition.CeilingDays),
                words.Sentences.Found(new(FindQuestion.Of(step.Kind)?.What ?? "", condition.Wanted, ""))),
            { Risk: { } risk } => format.Say(
                Texts.Setup_EveryByRisk,
                format.Count(risk.FloorDays),
                format.Count(risk.CeilingDays),
                format.Number(risk.AcceptedPercent, risk.AcceptedPercent == decimal.Truncate(risk.AcceptedPercent) ? 0 : 1)),
            { IntervalMonths: 1 } => format.Say(Texts.Setup_EveryMonth, basis),
            { IntervalMonths: { } months } => format.Say(Texts.Setup_EveryMonths, format.Count(months), basis),
            _ => format.Say(Texts.Setup_EveryDays, days, basis),
        };
    }
}
