using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Pages.Sheets.Panels;

/// <summary>The period as it is being chosen.</summary>
/// <param name="IsChosen">False for the usual one of the sheet.</param>
/// <param name="From">Null while the box is empty.</param>
/// <param name="To">Null while the box is empty.</param>
public sealed record ChosenPeriod(bool IsChosen, DateOnly? From, DateOnly? To)
{
    /// <summary>Why no sheet can be made of it; null when one can.</summary>
    public string? Fault => !IsChosen ? null
        : From is null || To is null ? Texts.Sheet_DaysMissing
        : From > To ? Texts.Sheet_PeriodEndsFirst
        : null;

    /// <summary>As fields of an address; none for the usual period.</summary>
    public IEnumerable<string> Fields => IsChosen && From is { } from && To is { } to ? [$"from={DayInput.Write(from)}", $"to={DayInput.Write(to)}"] : [];
}
