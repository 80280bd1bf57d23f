using ShopFluids.Rules.Findings;

namespace ShopFluids.Core.Wording.Flags;

/// <summary>A charge that is worn out, and by what that shows.</summary>
internal static class EndOfLifeSentence
{
    public static string Found(Sentences say, IReadOnlyDictionary<string, decimal> numbers) =>
        say.Format.Say(Texts.Flag_EndOfLife, say.Format.Number(numbers.GetValueOrDefault(NumberNames.Days), 0), string.Join(", ", Signs(say, numbers)));

    private static IEnumerable<string> Signs(Sentences say, IReadOnlyDictionary<string, decimal> numbers)
    {
        if (numbers.TryGetValue(NumberNames.SaltTimes, out var times))
        {
            yield return say.Format.Say(Texts.Flag_EndOfLifeSalts, say.Format.Number(times, 1));
        }

        if (numbers.TryGetValue(NumberNames.Drop, out var fall))
        {
            yield return say.Format.Say(Texts.Flag_EndOfLifePh, say.Format.Number(fall, 1));
        }

        if (numbers.TryGetValue(NumberNames.Comebacks, out var comebacks))
        {
            yield return say.Format.Say(Texts.Flag_EndOfLifeBacteria, say.Format.Number(comebacks, 0));
        }
    }
}
