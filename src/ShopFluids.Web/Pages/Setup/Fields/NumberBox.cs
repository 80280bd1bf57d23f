using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Pages.Setup.Fields;

/// <summary>What stands in the box of a number, exactly as typed, and what it means.</summary>
public sealed class NumberBox(QuantityKind kind = QuantityKind.Number)
{
    private decimal? _shown;
    private string _shownText = "";

    public QuantityKind Kind { get; } = kind;

    public string Text { get; set; } = "";

    public bool IsEmpty => string.IsNullOrWhiteSpace(Text);

    /// <summary>Puts a kept value into the box. Left as it is, it reads back as the same value, however it was rounded for showing.</summary>
    public void Show(decimal? canonical, ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        _shown = canonical;
        _shownText = canonical is { } value ? QuantityInput.Write(value, Kind, format.Units, format.Culture) : "";
        Text = _shownText;
    }

    /// <summary>Null when the box is empty or holds no number.</summary>
    public decimal? Value(UnitSystem units) =>
        _shown is { } shown && Text == _shownText ? shown
        : QuantityInput.TryRead(Text, Kind, units, out var value) ? value
        : null;
}
