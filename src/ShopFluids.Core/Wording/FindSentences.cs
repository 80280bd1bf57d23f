using ShopFluids.Core.Care.Finds;

namespace ShopFluids.Core.Wording;

/// <summary>Says what was found when work was done, and asks for it.</summary>
public static class FindSentences
{
    /// <summary>1.5 L of oil taken off; belt worn.</summary>
    public static string Found(this Sentences say, WorkFind find)
    {
        ArgumentNullException.ThrowIfNull(say);
        ArgumentNullException.ThrowIfNull(find);
        var number = find.Value is { } value ? Number(say.Format, find.What, value) : "";
        return find.Note.Length == 0 ? number : number.Length == 0 ? find.Note : $"{number}; {find.Note}";
    }

    public static string Filter(FilterState state) => state switch
    {
        FilterState.Clean => Texts.Filter_Clean,
        FilterState.Half => Texts.Filter_Half,
        FilterState.Full => Texts.Filter_Full,
        FilterState.Blocked => Texts.Filter_Blocked,
        _ => throw new ArgumentOutOfRangeException(nameof(state), state, "There is no text for this state of a filter."),
    };

    private static string Number(ShopFormat format, string what, decimal value) => what switch
    {
        FindNames.OilLitres => format.Say(Texts.Found_Oil, format.Volume((double)value)),
        FindNames.FilterState => format.Say(Texts.Found_Filter, Filter((FilterState)(short)value)),
        FindNames.SludgeMm => format.Say(Texts.Found_Sludge, format.Length((double)value)),
        FindNames.CirculatedMinutes => format.Say(Texts.Found_Circulated, format.Quantity((double)value, "min", 0)),
        _ => throw new ArgumentOutOfRangeException(nameof(what), what, "There is no text for this find."),
    };
}
