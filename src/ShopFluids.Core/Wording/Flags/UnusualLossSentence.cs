using ShopFluids.Rules.Findings;

namespace ShopFluids.Core.Wording.Flags;

/// <summary>A sump that loses more than it usually does.</summary>
internal static class UnusualLossSentence
{
    public static string Found(Sentences say, IReadOnlyDictionary<string, decimal> numbers) => say.Format.Say(
        Texts.Flag_UnusualLoss,
        say.Format.Number(numbers[NumberNames.Days], 1),
        say.Format.Volume((double)numbers[NumberNames.LostLitres]),
        say.Format.Volume((double)numbers[NumberNames.UsualLitres]));
}
