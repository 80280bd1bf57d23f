namespace ShopFluids.Core.Sheets;

/// <summary>A blank sheet to write a round on, in walking order. Every text is finished; printing formats nothing.</summary>
public sealed record RoundSheet(string Shop, string Day, string Areas, string PrintedAt, string PrintedBy, DateTime PrintedAtUtc, string Language, IReadOnlyList<RoundSheetStop> Stops);

/// <param name="Code">The address of the sump's entry page, for the code beside it.</param>
/// <param name="Late">How late its test is; null when it is not.</param>
public sealed record RoundSheetStop(string Tag, string Where, string? Late, string Code, IReadOnlyList<RoundSheetBox> Boxes)
{
    /// <summary>What whoever walks there must know before they go; empty where there is nothing.</summary>
    public IReadOnlyList<string> Dangers { get; init; } = [];
}

/// <summary>A box to write into, or words to tick.</summary>
/// <param name="Unit">Empty where words are ticked.</param>
/// <param name="Range">What it should lie in; null where there is no limit.</param>
/// <param name="Last">The last value and when; null where there is none.</param>
/// <param name="Words">Empty where a number is written.</param>
public sealed record RoundSheetBox(string Label, string Unit, string? Range, string? Last, IReadOnlyList<string> Words);
