using ShopFluids.Rules;
using ShopFluids.Rules.Patterns;

namespace ShopFluids.Core.Wording.Patterns;

/// <summary>Says what speaks for and against a cause, and what to find out next.</summary>
public static class PatternSentences
{
    /// <summary>A condition with the value that is known, where there is one.</summary>
    public static string Evidence(this Sentences say, PatternCondition condition, PatternFacts facts)
    {
        ArgumentNullException.ThrowIfNull(say);
        ArgumentNullException.ThrowIfNull(condition);
        ArgumentNullException.ThrowIfNull(facts);
        var sentence = say.Condition(condition);
        return Known(condition, facts) is { } known ? say.Format.Say(Texts.Pattern_Evidence, sentence, Amount(say, condition, known)) : sentence;
    }

    /// <summary>A condition of the table.</summary>
    public static string Condition(this Sentences say, PatternCondition condition)
    {
        ArgumentNullException.ThrowIfNull(say);
        ArgumentNullException.ThrowIfNull(condition);
        var (subject, number) = (condition.Subject, Amount(say, condition, condition.Number));
        return condition.Comparison switch
        {
            Comparison.IsOpen => say.Format.Say(Texts.Pattern_FlagOpen, Rule(say, subject)),
            Comparison.IsLow => say.Format.Say(Texts.Pattern_IsLow, say.PatternSubject(subject)),
            Comparison.IsWithin => say.Format.Say(Texts.Pattern_IsWithin, say.PatternSubject(subject)),
            Comparison.IsHigh => say.Format.Say(say.IsBadOnlyHigh(subject) ? Texts.Pattern_IsTooMuch : Texts.Pattern_IsHigh, say.PatternSubject(subject)),
            Comparison.Fell => say.Format.Say(Change(subject, Texts.Pattern_VolumeFell, Texts.Pattern_StrengthFell, Texts.Pattern_Fell), say.PatternSubject(subject), number),
            Comparison.Rose => say.Format.Say(Change(subject, Texts.Pattern_VolumeRose, Texts.Pattern_StrengthRose, Texts.Pattern_Rose), say.PatternSubject(subject), number),
            Comparison.Equal => say.Format.Say(Texts.Pattern_Equal, say.PatternSubject(subject), number),
            Comparison.AtMost when subject == PatternSubjects.MethodGap => say.Format.Say(Texts.Pattern_GapBelow, Amount(say, condition, -condition.Number)),
            Comparison.AtLeast when say.Words(subject).Count > 0 => say.Format.Say(Texts.Pattern_WordOrWorse, say.PatternSubject(subject), number),
            Comparison.AtLeast => say.Format.Say(Texts.Pattern_AtLeast, say.PatternSubject(subject), number),
            Comparison.Over => say.Format.Say(Texts.Pattern_Over, say.PatternSubject(subject), number),
            Comparison.AtMost => say.Format.Say(Texts.Pattern_AtMost, say.PatternSubject(subject), number),
            Comparison.Under => say.Format.Say(Texts.Pattern_Under, say.PatternSubject(subject), number),
            _ => throw new ArgumentOutOfRangeException(nameof(condition), condition.Comparison, "There are no words for this comparison."),
        };
    }

    /// <summary>What a subject of the table is called.</summary>
    public static string PatternSubject(this Sentences say, string subject)
    {
        ArgumentNullException.ThrowIfNull(say);
        return subject switch
        {
            PatternSubjects.Titration => Texts.Pattern_Titration,
            PatternSubjects.MethodGap => Texts.Pattern_MethodGap,
            PatternSubjects.ChargeAge => Texts.Pattern_ChargeAge,
            PatternSubjects.AddedShare => Texts.Pattern_AddedShare,
            PatternSubjects.WaterHardness => Texts.Pattern_WaterHardness,
            PatternSubjects.WaterNitrate => Texts.Pattern_WaterNitrate,
            _ => say.Parameter(subject),
        };
    }

    /// <summary>How to find a subject out.</summary>
    public static string Next(this Sentences say, string subject)
    {
        ArgumentNullException.ThrowIfNull(say);
        return subject is PatternSubjects.MethodGap or PatternSubjects.Titration ? Texts.Pattern_NextTitrate
            : subject is PatternSubjects.WaterHardness or PatternSubjects.WaterNitrate ? say.Format.Say(Texts.Pattern_NextWater, say.PatternSubject(subject))
            : say.Words(subject).Count > 0 ? say.Format.Say(Texts.Pattern_NextLook, say.PatternSubject(subject))
            : say.Format.Say(Texts.Pattern_NextMeasure, say.PatternSubject(subject));
    }

    /// <summary>2 for, 0 against, 1 not known.</summary>
    public static string Counts(this Sentences say, RankedCause cause)
    {
        ArgumentNullException.ThrowIfNull(say);
        ArgumentNullException.ThrowIfNull(cause);
        return say.Format.Say(Texts.Pattern_Counts, say.Format.Count(cause.For.Count), say.Format.Count(cause.Against.Count), say.Format.Count(cause.NotKnown.Count));
    }

    private static decimal? Known(PatternCondition condition, PatternFacts facts) => condition.Comparison switch
    {
        Comparison.Fell => facts.Changes.TryGetValue(condition.Subject, out var change) ? -change.Value : null,
        Comparison.Rose => facts.Changes.TryGetValue(condition.Subject, out var change) ? change.Value : null,
        // "Odour: sour" says its value; of the gap the sign would have to be explained.
        Comparison.IsOpen or Comparison.Equal => null,
        Comparison.AtMost when condition.Subject == PatternSubjects.MethodGap => facts.Values.TryGetValue(condition.Subject, out var gap) ? -gap.Value : null,
        _ => facts.Values.TryGetValue(condition.Subject, out var value) ? value.Value : null,
    };

    private static string Amount(Sentences say, PatternCondition condition, decimal value) => condition.Subject switch
    {
        PatternSubjects.ChargeAge => say.Format.Say(Texts.Pattern_Days, say.Format.Number(value, 0)),
        PatternSubjects.AddedShare => say.Format.Say(Texts.Pattern_PercentOfTarget, say.Format.Number(value, 0)),
        PatternSubjects.MethodGap or PatternSubjects.Titration => say.Format.Percent((double)value),
        PatternSubjects.WaterHardness => say.Format.Hardness((double)value),
        PatternSubjects.WaterNitrate => say.Value(ParameterCodes.Nitrate, value),
        ParameterCodes.Level when condition.Comparison is Comparison.Fell or Comparison.Rose => say.Format.Percent((double)value),
        ParameterCodes.Temperature when condition.Comparison is not (Comparison.Fell or Comparison.Rose) => say.Format.Temperature((double)value),
        _ => say.Value(condition.Subject, value),
    };

    private static string Change(string subject, string ofVolume, string ofStrength, string ofOther) => subject switch
    {
        ParameterCodes.Level => ofVolume,
        ParameterCodes.Concentration => ofStrength,
        _ => ofOther,
    };

    // A rule that speaks of one parameter is named by it.
    private static string Rule(Sentences say, string rule) => rule switch
    {
        Rules.RunDry.RunDryRule.RuleCode => say.Parameter(ParameterCodes.Level),
        Rules.SuddenChange.SuddenChangeRule.RuleCode => Texts.Pattern_SuddenChange,
        _ => say.Subject(rule, ""),
    };
}
