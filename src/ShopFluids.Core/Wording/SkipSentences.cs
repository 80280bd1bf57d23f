using ShopFluids.Core.Rounds;

namespace ShopFluids.Core.Wording;

/// <summary>Says why a sump was passed by on the round.</summary>
public static class SkipSentences
{
    public static string Reason(SkipReason reason) => reason switch
    {
        SkipReason.MachineRunning => Texts.Skip_MachineRunning,
        SkipReason.CouldNotReach => Texts.Skip_CouldNotReach,
        _ => Texts.Skip_Other,
    };

    /// <summary>The words where another reason was given, else the reason with the words after it.</summary>
    public static string Why(SkipReason reason, string words)
    {
        ArgumentNullException.ThrowIfNull(words);
        return reason == SkipReason.Other ? words : words.Length == 0 ? Reason(reason) : $"{Reason(reason)}, {words}";
    }
}
