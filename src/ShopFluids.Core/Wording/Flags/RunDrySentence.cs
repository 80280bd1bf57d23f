using ShopFluids.Rules;
using ShopFluids.Rules.Findings;

namespace ShopFluids.Core.Wording.Flags;

/// <summary>Too little above the pump's intake.</summary>
internal static class RunDrySentence
{
    public static string Found(Sentences say, Verdict severity, IReadOnlyDictionary<string, decimal> numbers) => severity == Verdict.Action
        ? say.Format.Say(Texts.Flag_RunDryBare, say.Value(ParameterCodes.Level, numbers[NumberNames.Value]))
        : say.Format.Say(numbers.ContainsKey(NumberNames.NeededIsGuessed) ? Texts.Flag_RunDryGuessed : Texts.Flag_RunDry, say.Format.Volume((double)numbers[NumberNames.UsableLitres]), say.Format.Volume((double)numbers[NumberNames.NeededLitres]));

    public static string Clears(Sentences say, IReadOnlyDictionary<string, decimal> numbers) =>
        say.Format.Say(Texts.Flag_RunDryClears, say.Format.Volume((double)numbers[NumberNames.NeededLitres]));
}
