using ShopFluids.Rules;
using ShopFluids.Rules.Disagreement;
using ShopFluids.Rules.EndOfLife;
using ShopFluids.Rules.Idle;
using ShopFluids.Rules.MassBalance;
using ShopFluids.Rules.Microbial;
using ShopFluids.Rules.SuddenChange;
using ShopFluids.Rules.UnreadSlide;
using ShopFluids.Rules.UnusualLoss;

namespace ShopFluids.Core.Wording;

/// <summary>What a flag is about, and what it suggests; the finding itself is said by <see cref="FlagSentences"/>.</summary>
public static class FlagAdviceSentences
{
    /// <summary>The parameter, or where a flag is about the sump as a whole, what the rule looked at.</summary>
    public static string Subject(this Sentences say, string rule, string parameter)
    {
        ArgumentNullException.ThrowIfNull(say);
        return parameter.Length > 0 ? say.Parameter(parameter) : rule switch
        {
            DisagreementRule.RuleCode => Texts.Subject_Methods,
            BalanceRule.RuleCode => Texts.Subject_Balance,
            UnusualLossRule.RuleCode => Texts.Subject_Loss,
            IdleRule.RuleCode => Texts.Subject_Idle,
            EndOfLifeRule.RuleCode => Texts.Subject_EndOfLife,
            _ => Texts.Board_TheSump,
        };
    }

    /// <summary>The same of work that carries a flag's cause.</summary>
    public static string SubjectOfCause(this Sentences say, string cause)
    {
        ArgumentNullException.ThrowIfNull(cause);
        var parts = cause.Split(':', 2);
        return say.Subject(parts[0], parts.Length > 1 ? parts[1] : "");
    }

    /// <summary>How to read the finding and what to look for; empty where the finding says all.</summary>
    public static string FlagAdvice(string rule, string parameter, Direction direction) => (rule, direction) switch
    {
        (SuddenChangeRule.RuleCode, _) => Texts.Flag_SuddenChangeAdvice,
        (DisagreementRule.RuleCode, Direction.High) => Texts.Flag_DisagreementRefractometerAdvice,
        (DisagreementRule.RuleCode, _) => Texts.Flag_DisagreementTitrationAdvice,
        (BalanceRule.RuleCode, Direction.High) => Texts.Flag_BalanceWaterAdvice,
        (BalanceRule.RuleCode, Direction.Low) => Texts.Flag_BalanceConcentrateAdvice,
        (BalanceRule.RuleCode, _) => Texts.Flag_BalanceMixAdvice,
        (UnusualLossRule.RuleCode, _) => Texts.Flag_UnusualLossAdvice,
        (IdleRule.RuleCode, _) => Texts.Flag_IdleAdvice,
        (EndOfLifeRule.RuleCode, _) => Texts.Flag_EndOfLifeAdvice,
        (UnreadSlideRule.RuleCode, _) => Texts.Flag_UnreadSlideAdvice,
        (MicrobialRule.RuleCode, _) => parameter == ParameterCodes.Ph ? Texts.Flag_MicrobialPhAdvice : Texts.Flag_MicrobialSlideAdvice,
        _ => "",
    };
}
