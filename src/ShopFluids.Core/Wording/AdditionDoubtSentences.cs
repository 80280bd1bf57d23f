using System.Diagnostics;
using ShopFluids.Core.Charges;

namespace ShopFluids.Core.Wording;

/// <summary>Says what is unusual about an addition.</summary>
public static class AdditionDoubtSentences
{
    public static string Doubt(this Sentences say, AdditionDoubt doubt)
    {
        ArgumentNullException.ThrowIfNull(say);
        return doubt switch
        {
            NeatConcentrate d => say.Format.Say(Texts.Saved_AskNeat, say.Format.Volume(d.Litres)),
            NothingTakenOut d => say.Format.Say(Texts.Saved_AskNothingTakenOut, say.Format.Volume(d.AskedLitres)),
            OverTheMark d => say.Format.Say(Texts.Saved_AskOverTheMark, say.Format.Volume(d.Litres), say.Format.Volume(d.OverLitres)),
            _ => throw new UnreachableException($"{doubt.GetType().Name} has no words."),
        };
    }
}
