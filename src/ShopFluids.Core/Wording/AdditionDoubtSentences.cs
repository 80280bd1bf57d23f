using System.Diagnostics;
using ShopFluids.Core.Charges;
using ShopFluids.Rules;

namespace ShopFluids.Core.Wording;

/// <summary>Says what is unusual about an addition.</summary>
public static class AdditionDoubtSentences
{
    /// <summary>Concentrate without water, filled above the full mark; empty where nothing was unusual.</summary>
    public static string Unusual(UnusualAddition unusual) => string.Join(", ", new[]
    {
        unusual.HasFlag(UnusualAddition.Neat) ? Texts.Unusual_Neat : "",
        unusual.HasFlag(UnusualAddition.NothingTakenOut) ? Texts.Unusual_NothingTakenOut : "",
        unusual.HasFlag(UnusualAddition.OverTheMark) ? Texts.Unusual_OverTheMark : "",
        unusual.HasFlag(UnusualAddition.TooStrong) ? Texts.Unusual_TooStrong : "",
    }.Where(words => words.Length > 0));

    public static string Doubt(this Sentences say, AdditionDoubt doubt)
    {
        ArgumentNullException.ThrowIfNull(say);
        return doubt switch
        {
            NeatConcentrate d => say.Format.Say(Texts.Saved_AskNeat, say.Format.Volume(d.Litres)),
            NothingTakenOut d => say.Format.Say(Texts.Saved_AskNothingTakenOut, say.Format.Volume(d.AskedLitres)),
            OverTheMark d => say.Format.Say(Texts.Saved_AskOverTheMark, say.Format.Volume(d.Litres), say.Format.Volume(d.OverLitres)),
            TooStrong d => say.Format.Say(Texts.Saved_AskTooStrong, say.Value(ParameterCodes.Concentration, (decimal)d.Percent), say.Value(ParameterCodes.Concentration, (decimal)d.MostPercent)),
            _ => throw new UnreachableException($"{doubt.GetType().Name} has no words."),
        };
    }
}
