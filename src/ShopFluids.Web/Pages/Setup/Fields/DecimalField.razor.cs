using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Pages.Setup.Fields;

/// <summary>
/// A number in the person's units. Comma and point both stand before the decimals; where that could be meant otherwise, the
/// field says how it reads the number.
/// </summary>
public sealed partial class DecimalField
{
    private ElementReference _box;

    [Parameter, EditorRequired]
    public required NumberBox Box { get; set; }

    /// <summary>The unit of a plain number, such as % or h; quantities bring their own.</summary>
    [Parameter]
    public string? PlainUnit { get; set; }

    /// <summary>For a page that draws what is typed.</summary>
    [Parameter]
    public EventCallback Changed { get; set; }

    private string Unit => PlainUnit ?? QuantityInput.Unit(Box.Kind, Form.Format.Units);

    private string? Echo => QuantityInput.IsAmbiguous(Box.Text) && NumberInput.TryRead(Box.Text, out var read)
        ? Form.Format.Say(Texts.Setup_ReadAs, $"{read.ToString("0.###", Form.Format.Culture)} {Unit}".Trim())
        : null;

    protected override string? DescribedBy
    {
        get
        {
            var ids = string.Join(' ', new[] { Unit.Length == 0 ? null : $"{Id}-unit", Echo is null ? null : $"{Id}-echo", base.DescribedBy }.OfType<string>());
            return ids.Length == 0 ? null : ids;
        }
    }

    protected override ValueTask FocusAsync() => _box.FocusAsync();

    // With every key, so that what the page works out follows the typing.
    private Task ChangeAsync(string? text)
    {
        Box.Text = text ?? "";
        Touch();
        return Changed.InvokeAsync();
    }
}
