using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Pages.Setup.Limits;

/// <summary>One parameter's ladder of limits.</summary>
public sealed partial class LimitRow
{
    private ElementReference _group;

    [Parameter, EditorRequired]
    public required LimitRowDraft Row { get; set; }

    private string Unit => Row.Ladder[0].Kind == QuantityKind.Number ? Row.Parameter.Unit : QuantityInput.Unit(Row.Ladder[0].Kind, Form.Format.Units);

    /// <summary>For a parameter that is a word: which number is which word.</summary>
    private string Ladder => string.Join(", ", Form.Words.Sentences.Words(Row.Parameter.Code).Select((word, i) => $"{Form.Format.Count(i)} {word}"));

    protected override ValueTask FocusAsync() => _group.FocusAsync();

    private void ToggleEdge(ChangeEventArgs e)
    {
        Row.EdgeIsBeyond = e.Value is true;
        Touch();
    }

    private void ToggleGone()
    {
        Row.IsGone = !Row.IsGone;
        Touch();
    }
}
