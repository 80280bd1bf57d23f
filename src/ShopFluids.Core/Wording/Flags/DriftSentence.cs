using ShopFluids.Rules;
using ShopFluids.Rules.Findings;

namespace ShopFluids.Core.Wording.Flags;

/// <summary>A value that will meet a limit if it goes on like this. The flag is read days after it was raised, so nothing is said of today.</summary>
internal static class DriftSentence
{
    public static string Found(Sentences say, string parameter, Direction direction, IReadOnlyDictionary<string, decimal> numbers)
    {
        var days = (int)decimal.Round(numbers[NumberNames.DaysUntil]);
        var pattern = (direction, days) switch
        {
            (Direction.Low, 0) => Texts.Flag_DriftDownNow,
            (Direction.Low, 1) => Texts.Flag_DriftDownOneDay,
            (Direction.Low, _) => Texts.Flag_DriftDown,
            (_, 0) => Texts.Flag_DriftUpNow,
            (_, 1) => Texts.Flag_DriftUpOneDay,
            _ => Texts.Flag_DriftUp,
        };
        return say.Format.Say(
            pattern,
            say.Parameter(parameter),
            say.Value(parameter, numbers[NumberNames.Value]),
            say.Value(parameter, Math.Abs(numbers[NumberNames.SlopePerWeek])),
            say.Value(parameter, numbers[NumberNames.Limit]),
            say.Format.Count(days));
    }
}
