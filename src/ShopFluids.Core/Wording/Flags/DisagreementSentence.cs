using ShopFluids.Rules;
using ShopFluids.Rules.Findings;

namespace ShopFluids.Core.Wording.Flags;

/// <summary>Refractometer and titration that do not agree.</summary>
internal static class DisagreementSentence
{
    public static string Found(Sentences say, Direction direction, IReadOnlyDictionary<string, decimal> numbers) => say.Format.Say(
        direction == Direction.High ? Texts.Flag_DisagreementRefractometer : Texts.Flag_DisagreementTitration,
        say.Value(ParameterCodes.Concentration, numbers[NumberNames.Refractometer]),
        say.Value(ParameterCodes.Concentration, numbers[NumberNames.Titration]));
}
