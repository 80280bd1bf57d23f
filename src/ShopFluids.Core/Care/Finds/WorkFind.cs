namespace ShopFluids.Core.Care.Finds;

/// <summary>What was found when work was done; it is stored with its task. Immutable.</summary>
/// <param name="What">What the number is, with its unit, as in <see cref="FindNames"/>; empty where there is only a note.</param>
/// <param name="Value">The number in that unit, or the grade of a filter as <see cref="FilterState"/>.</param>
/// <param name="Note">In words; empty when none was given.</param>
public sealed record WorkFind(string What, decimal? Value, string Note);

/// <summary>What was found as somebody gives it.</summary>
/// <param name="What">As in <see cref="FindNames"/>; null where only a note is given.</param>
public sealed record TypedFind(string? What, decimal? Value, string? Note)
{
    public bool IsEmpty => Value is null && string.IsNullOrWhiteSpace(Note);
}

/// <summary>What can be asked for, with its unit.</summary>
public static class FindNames
{
    public const string OilLitres = "oilLitres";
    public const string FilterState = "filterState";
    public const string SludgeMm = "sludgeMm";
    public const string CirculatedMinutes = "circulatedMinutes";
    public const string Note = "foundNote";
}

/// <summary>How full a filter was when it was changed. The grade counts in halves of its capacity; what is more than full is blocked.</summary>
public enum FilterState : short
{
    Clean = 0,
    Half = 1,
    Full = 2,
    Blocked = 3,
}
