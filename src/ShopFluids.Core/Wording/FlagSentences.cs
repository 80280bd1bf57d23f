using ShopFluids.Core.Board;
using ShopFluids.Core.Wording.Flags;
using ShopFluids.Rules;
using ShopFluids.Rules.Disagreement;
using ShopFluids.Rules.Drift;
using ShopFluids.Rules.EndOfLife;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.FirstFillDrop;
using ShopFluids.Rules.Idle;
using ShopFluids.Rules.Limit;
using ShopFluids.Rules.MassBalance;
using ShopFluids.Rules.Microbial;
using ShopFluids.Rules.OverdueTest;
using ShopFluids.Rules.RunDry;
using ShopFluids.Rules.SuddenChange;
using ShopFluids.Rules.UnreadSlide;
using ShopFluids.Rules.UnusualLoss;

namespace ShopFluids.Core.Wording;

/// <summary>Says what a flag found, with its numbers, and what clears it.</summary>
public static class FlagSentences
{
    public static string Flag(this Sentences say, string rule, string parameter, Verdict severity, Direction direction, IReadOnlyDictionary<string, decimal> numbers)
    {
        ArgumentNullException.ThrowIfNull(say);
        ArgumentNullException.ThrowIfNull(numbers);
        return rule switch
        {
            LimitRule.Code => Limit(say, parameter, severity, direction, numbers),
            FirstFillDropRule.Code => say.Format.Say(
                severity == Verdict.Action ? Texts.Flag_DropAction : Texts.Flag_DropWarning,
                say.Parameter(parameter),
                say.Value(parameter, numbers[NumberNames.Value]),
                say.Value(parameter, numbers[NumberNames.Drop]),
                say.Value(parameter, numbers[NumberNames.FirstFill]),
                say.Value(parameter, numbers[NumberNames.Limit])),
            OverdueTestRule.Code => numbers.GetValueOrDefault(NumberNames.ShopDaysLate) switch
            {
                1 => Texts.Flag_OverdueOneDay,
                > 1 and var days => say.Format.Say(Texts.Flag_OverdueDays, say.Format.Number(days, 0)),
                _ => Texts.Flag_Overdue,
            },
            DriftRule.RuleCode => DriftSentence.Found(say, parameter, direction, numbers),
            SuddenChangeRule.RuleCode => SuddenChangeSentence.Found(say, parameter, numbers),
            DisagreementRule.RuleCode => DisagreementSentence.Found(say, direction, numbers),
            BalanceRule.RuleCode => BalanceSentence.Found(say, direction, numbers),
            MicrobialRule.RuleCode => MicrobialSentence.Found(say, parameter, numbers),
            UnusualLossRule.RuleCode => UnusualLossSentence.Found(say, numbers),
            RunDryRule.RuleCode => RunDrySentence.Found(say, severity, numbers),
            IdleRule.RuleCode => say.Format.Say(Texts.Flag_Idle, say.Format.Number(numbers.GetValueOrDefault(NumberNames.Days), 0)),
            EndOfLifeRule.RuleCode => EndOfLifeSentence.Found(say, numbers),
            UnreadSlideRule.RuleCode => say.Format.Say(Texts.Flag_UnreadSlide, say.Format.Number(numbers.GetValueOrDefault(NumberNames.HoursLate), 0)),
            _ => say.Format.Say(Texts.Flag_Other, say.Parameter(parameter), rule),
        };
    }

    /// <summary>What a flag found and, where a later reading found another value, that one.</summary>
    public static string FlagNow(this Sentences say, BoardFlag flag)
    {
        ArgumentNullException.ThrowIfNull(say);
        ArgumentNullException.ThrowIfNull(flag);
        var found = say.Flag(flag.Rule, flag.Parameter, flag.Severity, flag.Direction, flag.Numbers);
        return flag.Latest is { } latest ? $"{found} {say.Format.Say(Texts.Flag_LatestValue, say.Value(flag.Parameter, latest))}" : found;
    }

    /// <summary>What clears the flag; empty when only a person can.</summary>
    public static string FlagClears(this Sentences say, string rule, string parameter, Direction direction, IReadOnlyDictionary<string, decimal> numbers)
    {
        ArgumentNullException.ThrowIfNull(say);
        ArgumentNullException.ThrowIfNull(numbers);
        return rule switch
        {
            OverdueTestRule.Code => Texts.Flag_ClearsByTest,
            DriftRule.RuleCode => Texts.Flag_DriftClears,
            SuddenChangeRule.RuleCode => SuddenChangeSentence.Clears(say, parameter, numbers),
            DisagreementRule.RuleCode => Texts.Flag_DisagreementClears,
            BalanceRule.RuleCode => Texts.Flag_BalanceClears,
            MicrobialRule.RuleCode => MicrobialSentence.Clears(parameter),
            UnusualLossRule.RuleCode => Texts.Flag_UnusualLossClears,
            RunDryRule.RuleCode => RunDrySentence.Clears(say, numbers),
            IdleRule.RuleCode => Texts.Flag_IdleClears,
            EndOfLifeRule.RuleCode => Texts.Flag_EndOfLifeClears,
            UnreadSlideRule.RuleCode => Texts.Flag_UnreadSlideClears,
            _ => numbers.TryGetValue(NumberNames.ClearsAt, out var clearsAt) ? Clears(say, parameter, direction, clearsAt, EdgeBelongsToTheFinding(numbers, clearsAt)) : "",
        };
    }

    // A flag on a limit that includes its edge, without a margin, is still there at the limit itself.
    private static bool EdgeBelongsToTheFinding(IReadOnlyDictionary<string, decimal> numbers, decimal clearsAt)
    {
        var limit = numbers.GetValueOrDefault(NumberNames.Limit);
        var (firstFill, isDrop) = (numbers.GetValueOrDefault(NumberNames.FirstFill), numbers.ContainsKey(NumberNames.Drop));
        return numbers.GetValueOrDefault(NumberNames.EdgeIsBeyond) == 1 && clearsAt == (isDrop ? firstFill - limit : limit);
    }

    private static string Clears(Sentences say, string parameter, Direction direction, decimal clearsAt, bool isBeyondAtIt)
    {
        // Between two words there is nothing: what clears is a word, the last one before the limit.
        if (direction == Direction.High && say.Words(parameter).Count > 0)
        {
            return say.Format.Say(Texts.Flag_ClearsAtWord, say.Value(parameter, isBeyondAtIt ? decimal.Ceiling(clearsAt) - 1 : decimal.Floor(clearsAt)));
        }

        var pattern = (direction, isBeyondAtIt) switch
        {
            (Direction.High, true) => Texts.Flag_ClearsUnder,
            (Direction.High, false) => Texts.Flag_ClearsBelow,
            (_, true) => Texts.Flag_ClearsOver,
            _ => Texts.Flag_ClearsAbove,
        };
        return say.Format.Say(pattern, say.Value(parameter, clearsAt));
    }

    private static string Limit(Sentences say, string parameter, Verdict severity, Direction direction, IReadOnlyDictionary<string, decimal> numbers)
    {
        var (value, limit) = (numbers[NumberNames.Value], numbers[NumberNames.Limit]);

        // A word says it all: "Odour: Rotten egg." needs no limit in words.
        if (say.Words(parameter).Count > 0)
        {
            return say.Format.Say(Texts.Flag_Word, say.Parameter(parameter), say.Value(parameter, value));
        }

        var pattern = (severity, direction) switch
        {
            // Where the limit itself is beyond (bacteria from 10^4), a value on it is neither over nor under.
            (Verdict.Action, _) when value == limit => Texts.Flag_AtAction,
            (_, _) when value == limit => Texts.Flag_AtWarning,
            (Verdict.Action, Direction.Low) => Texts.Flag_UnderAction,
            (Verdict.Action, _) => Texts.Flag_OverAction,
            (_, Direction.Low) => Texts.Flag_UnderWarning,
            _ => Texts.Flag_OverWarning,
        };
        return say.Format.Say(pattern, say.Parameter(parameter), say.Value(parameter, value), say.Value(parameter, limit));
    }
}
