using ShopFluids.Rules;
using ShopFluids.Rules.Findings;

namespace ShopFluids.Core.Wording.Flags;

/// <summary>What bacteria commonly do.</summary>
internal static class MicrobialSentence
{
    public static string Found(Sentences say, string parameter, IReadOnlyDictionary<string, decimal> numbers) => parameter == ParameterCodes.Bacteria
        ? say.Format.Say(Texts.Flag_MicrobialSlide, say.Value(parameter, numbers[NumberNames.Value]), say.Value(parameter, numbers[NumberNames.Previous]))
        : say.Format.Say(
            numbers.ContainsKey(NumberNames.Steady) ? Texts.Flag_MicrobialPhSteady : Texts.Flag_MicrobialPh,
            say.Value(parameter, numbers[NumberNames.Value]),
            say.Value(parameter, numbers[NumberNames.Usual]),
            say.Value(ParameterCodes.Odour, numbers[NumberNames.Odour]).ToLower(say.Format.Culture));

    public static string Clears(string parameter) => parameter == ParameterCodes.Bacteria ? Texts.Flag_MicrobialSlideClears : Texts.Flag_MicrobialPhClears;
}
