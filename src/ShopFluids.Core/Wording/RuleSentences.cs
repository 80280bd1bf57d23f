using ShopFluids.Core.Tuning;
using ShopFluids.Rules.Disagreement;
using ShopFluids.Rules.Drift;
using ShopFluids.Rules.EndOfLife;
using ShopFluids.Rules.Escalation;
using ShopFluids.Rules.FirstFillDrop;
using ShopFluids.Rules.Gathering;
using ShopFluids.Rules.Idle;
using ShopFluids.Rules.InstrumentCheck;
using ShopFluids.Rules.Limit;
using ShopFluids.Rules.Lot;
using ShopFluids.Rules.MassBalance;
using ShopFluids.Rules.Microbial;
using ShopFluids.Rules.OverdueTest;
using ShopFluids.Rules.Registry;
using ShopFluids.Rules.RunDry;
using ShopFluids.Rules.SuddenChange;
using ShopFluids.Rules.UnreadSlide;
using ShopFluids.Rules.UnusualLoss;

namespace ShopFluids.Core.Wording;

/// <summary>What the rules are called, what they look at, and what their numbers mean.</summary>
public static class RuleSentences
{
    private const string Litres = "L";

    /// <summary>The rule's name; its code for a rule without one.</summary>
    public static string Name(string rule) => rule switch
    {
        SuddenChangeRule.RuleCode => Texts.Rule_SuddenChange,
        DriftRule.RuleCode => Texts.Rule_Drift,
        DisagreementRule.RuleCode => Texts.Rule_Disagreement,
        BalanceRule.RuleCode => Texts.Rule_Balance,
        UnusualLossRule.RuleCode => Texts.Rule_UnusualLoss,
        MicrobialRule.RuleCode => Texts.Rule_Microbial,
        RunDryRule.RuleCode => Texts.Rule_RunDry,
        IdleRule.RuleCode => Texts.Rule_Idle,
        UnreadSlideRule.RuleCode => Texts.Rule_UnreadSlide,
        EndOfLifeRule.RuleCode => Texts.Rule_EndOfLife,
        EscalationRule.RuleCode => Texts.Rule_Escalation,
        GatheringRule.RuleCode => Texts.Rule_Gathering,
        LimitRule.Code => Texts.Rule_Limit,
        FirstFillDropRule.Code => Texts.Rule_FirstFillDrop,
        OverdueTestRule.Code => Texts.Rule_OverdueTest,
        LotRule.Code => Texts.Rule_Lot,
        InstrumentCheckRule.Code => Texts.Rule_InstrumentCheck,
        _ => rule,
    };

    /// <summary>What it looks at and when it flags, in a sentence or two.</summary>
    public static string LooksAt(string rule) => rule switch
    {
        SuddenChangeRule.RuleCode => Texts.Rule_SuddenChangeLooksAt,
        DriftRule.RuleCode => Texts.Rule_DriftLooksAt,
        DisagreementRule.RuleCode => Texts.Rule_DisagreementLooksAt,
        BalanceRule.RuleCode => Texts.Rule_BalanceLooksAt,
        UnusualLossRule.RuleCode => Texts.Rule_UnusualLossLooksAt,
        MicrobialRule.RuleCode => Texts.Rule_MicrobialLooksAt,
        RunDryRule.RuleCode => Texts.Rule_RunDryLooksAt,
        IdleRule.RuleCode => Texts.Rule_IdleLooksAt,
        UnreadSlideRule.RuleCode => Texts.Rule_UnreadSlideLooksAt,
        EndOfLifeRule.RuleCode => Texts.Rule_EndOfLifeLooksAt,
        EscalationRule.RuleCode => Texts.Rule_EscalationLooksAt,
        GatheringRule.RuleCode => Texts.Rule_GatheringLooksAt,
        _ => "",
    };

    /// <summary>What a number of a rule means; its name for one without words.</summary>
    public static string Number(string rule, string name) => (rule, name) switch
    {
        (SuddenChangeRule.RuleCode, SuddenChangeRule.LeastChanges) => Texts.RuleNumber_LeastChanges,
        (SuddenChangeRule.RuleCode, SuddenChangeRule.LimitFactor) => Texts.RuleNumber_LimitFactor,
        (SuddenChangeRule.RuleCode, SuddenChangeRule.LongestGapDays) or (BalanceRule.RuleCode, BalanceRule.LongestGapDays) => Texts.RuleNumber_LongestGapDays,
        (SuddenChangeRule.RuleCode, SuddenChangeRule.LargestExchangePercent) => Texts.RuleNumber_LargestExchangePercent,
        (SuddenChangeRule.RuleCode, SuddenChangeRule.SettlesAfterDays) => Texts.RuleNumber_SettlesAfterDays,
        (DriftRule.RuleCode, DriftRule.HorizonDays) => Texts.RuleNumber_HorizonDays,
        (DriftRule.RuleCode, DriftRule.Significance) => Texts.RuleNumber_Significance,
        (DriftRule.RuleCode, DriftRule.LeastReadings) => Texts.RuleNumber_LeastReadings,
        (DriftRule.RuleCode, DriftRule.UsualReadings) => Texts.RuleNumber_UsualReadings,
        (DriftRule.RuleCode, DriftRule.UsualDays) => Texts.RuleNumber_UsualDays,
        (DriftRule.RuleCode, DriftRule.LargeCorrectionPercent) => Texts.RuleNumber_LargeCorrectionPercent,
        (DriftRule.RuleCode, DriftRule.LargeExchangePercent) => Texts.RuleNumber_LargeExchangePercent,
        (DisagreementRule.RuleCode, DisagreementRule.LeastDifference) => Texts.RuleNumber_LeastDifference,
        (BalanceRule.RuleCode, BalanceRule.LeastPercent) => Texts.RuleNumber_LeastGainPercent,
        (BalanceRule.RuleCode, BalanceRule.PouredWithinPercent) => Texts.RuleNumber_PouredWithinPercent,
        (UnusualLossRule.RuleCode, UnusualLossRule.LeastIntervals) => Texts.RuleNumber_LeastIntervals,
        (UnusualLossRule.RuleCode, UnusualLossRule.Spreads) => Texts.RuleNumber_Spreads,
        (UnusualLossRule.RuleCode, UnusualLossRule.LeastPercentPerWeek) => Texts.RuleNumber_LeastPercentPerWeek,
        (MicrobialRule.RuleCode, MicrobialRule.LeastFall) => Texts.RuleNumber_LeastFall,
        (MicrobialRule.RuleCode, MicrobialRule.SteadyPercent) => Texts.RuleNumber_SteadyPercent,
        (MicrobialRule.RuleCode, MicrobialRule.LeastGrowth) => Texts.RuleNumber_LeastGrowth,
        (MicrobialRule.RuleCode, MicrobialRule.LeastCount) => Texts.RuleNumber_LeastCount,
        (RunDryRule.RuleCode, RunDryRule.NeededLitres) => Texts.RuleNumber_NeededLitres,
        (RunDryRule.RuleCode, RunDryRule.NeededPercent) => Texts.RuleNumber_NeededPercent,
        (IdleRule.RuleCode, IdleRule.AllowedShopDays) => Texts.RuleNumber_AllowedShopDays,
        (IdleRule.RuleCode, IdleRule.TestLateShopDays) => Texts.RuleNumber_TestLateShopDays,
        (EndOfLifeRule.RuleCode, EndOfLifeRule.OldDays) => Texts.RuleNumber_OldDays,
        (EndOfLifeRule.RuleCode, EndOfLifeRule.SaltTimes) => Texts.RuleNumber_SaltTimes,
        (EndOfLifeRule.RuleCode, EndOfLifeRule.PhFall) => Texts.RuleNumber_LeastFall,
        (EndOfLifeRule.RuleCode, EndOfLifeRule.Comebacks) => Texts.RuleNumber_Comebacks,
        (EndOfLifeRule.RuleCode, EndOfLifeRule.ComebackCount) => Texts.RuleNumber_ComebackCount,
        (EndOfLifeRule.RuleCode, EndOfLifeRule.WithinDays) => Texts.RuleNumber_WithinDays,
        (UnreadSlideRule.RuleCode, UnreadSlideRule.IncubatorHours) => Texts.RuleNumber_IncubatorHours,
        (UnreadSlideRule.RuleCode, UnreadSlideRule.RoomHours) => Texts.RuleNumber_RoomHours,
        (UnreadSlideRule.RuleCode, UnreadSlideRule.WindowHours) => Texts.RuleNumber_WindowHours,
        (EscalationRule.RuleCode, EscalationRule.WarningShopDays) => Texts.RuleNumber_WarningShopDays,
        (EscalationRule.RuleCode, EscalationRule.ActionHours) => Texts.RuleNumber_ActionHours,
        (GatheringRule.RuleCode, GatheringRule.WindowShopDays) => Texts.RuleNumber_WindowShopDays,
        _ => name,
    };

    /// <summary>The unit of a number, canonical where it is a quantity; empty where it has none.</summary>
    public static string Unit(string rule, string name) => (rule, name) switch
    {
        (RunDryRule.RuleCode, RunDryRule.NeededLitres) => Litres,
        (MicrobialRule.RuleCode, MicrobialRule.LeastFall) or (EndOfLifeRule.RuleCode, EndOfLifeRule.PhFall) => "pH",
        (MicrobialRule.RuleCode, MicrobialRule.LeastGrowth) => Texts.RuleUnit_PowersOfTen,
        (MicrobialRule.RuleCode, MicrobialRule.LeastCount) or (EndOfLifeRule.RuleCode, EndOfLifeRule.ComebackCount) => "log10 CFU/mL",
        (DisagreementRule.RuleCode, DisagreementRule.LeastDifference) => "% v/v",
        (SuddenChangeRule.RuleCode, SuddenChangeRule.LimitFactor) => "",
        (EscalationRule.RuleCode, EscalationRule.ActionHours) or (UnreadSlideRule.RuleCode, _) => "h",
        _ => name.EndsWith("ShopDays", StringComparison.Ordinal) ? Texts.RuleUnit_ShopDays
            : name.EndsWith("Days", StringComparison.Ordinal) ? Texts.RuleUnit_Days
            : name.EndsWith("Percent", StringComparison.Ordinal) || name.EndsWith("PercentPerWeek", StringComparison.Ordinal) ? "%"
            : "",
    };

    /// <summary>A value with its unit, in the person's.</summary>
    public static string RuleValue(this Sentences say, string rule, string name, decimal value)
    {
        ArgumentNullException.ThrowIfNull(say);
        var unit = Unit(rule, name);
        return unit == Litres ? say.Format.Volume((double)value) : $"{NumberAlone(say, rule, name, value)} {unit}".TrimEnd();
    }

    /// <summary>What is accepted for a number, with its unit once.</summary>
    public static string RuleRange(this Sentences say, string rule, RuleNumber number)
    {
        ArgumentNullException.ThrowIfNull(say);
        ArgumentNullException.ThrowIfNull(number);
        return say.Format.Say(Texts.Setup_RuleFromTo, NumberAlone(say, rule, number.Name, number.Least), say.RuleValue(rule, number.Name, number.Most));
    }

    /// <summary>Whose setting holds.</summary>
    public static string Level(RuleLevel level) => level switch
    {
        RuleLevel.Shipped => Texts.RuleLevel_Shipped,
        RuleLevel.Shop => Texts.RuleLevel_Shop,
        RuleLevel.Fluid => Texts.RuleLevel_Fluid,
        RuleLevel.Sump => Texts.RuleLevel_Sump,
        _ => throw new ArgumentOutOfRangeException(nameof(level), level, "There is no text for this place."),
    };

    private static string NumberAlone(Sentences say, string rule, string name, decimal value) =>
        Unit(rule, name) == Litres ? say.Format.VolumeNumber((double)value) : say.Format.Number(value, Math.Min(4, (int)(value / 1.0000000000000000000000000000m).Scale));
}
