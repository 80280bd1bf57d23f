using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Finds;
using ShopFluids.Core.Wording;
using ShopFluids.Rules.Facts;

namespace ShopFluids.Web.Pages.Setup.Care;

/// <summary>The interval of a step in words.</summary>
internal static class StepWords
{
    public static string Interval(CareStep step, CareView view)
    {
        var format = view.Words.Format;
        var (days, basis) = (format.Count(step.IntervalDays), CareDraft.BasisWord(step.Basis));
        return step switch
        {
            { Basis: IntervalBasis.AfterFill } => format.Say(Texts.Setup_DaysAfterFill, days),
            { Basis: IntervalBasis.AfterFlag } => format.Say(Texts.Setup_DaysAfterFlag, days, step.EventParameter is { } parameter ? view.Words.Sentences.Parameter(parameter) : Texts.Setup_AnyFlag),
            { IntervalHours: { } hours } => format.Say(Texts.Setup_EveryHours, format.Count(hours), format.Count(view.DaysOf(step))),
            { Condition: { } condition } => format.Say(
                Texts.Setup_EveryByFind,
                format.Count(condition.FloorDays),
                format.Count(condition.CeilingDays),
                view.Words.Sentences.Found(new(FindQuestion.Of(step.Kind)?.What ?? "", condition.Wanted, ""))),
            { IntervalMonths: 1 } => format.Say(Texts.Setup_EveryMonth, basis),
            { IntervalMonths: { } months } => format.Say(Texts.Setup_EveryMonths, format.Count(months), basis),
            _ => format.Say(Texts.Setup_EveryDays, days, basis),
        };
    }
}
