using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Components;
using ShopFluids.Rules;

namespace ShopFluids.Web.Components.Shared;

/// <summary>A verdict in shape, word and colour: quiet in a line, or filled as a tag. Markup and not a component, as <see cref="Mark"/> is.</summary>
public static class VerdictTag
{
    /// <param name="text">The word, such as Warning, low, or how late it is.</param>
    public static MarkupString Of(string text, Verdict verdict, Direction direction = Direction.None, bool isLate = false, bool isFilled = false)
    {
        ArgumentNullException.ThrowIfNull(text);
        return new($"""<span class="{(isFilled ? "v tag " : "v ")}{VerdictLook.CssClass(verdict, isLate)}">{Mark.Of(verdict, direction, isLate).Value}{HtmlEncoder.Default.Encode(text)}</span>""");
    }
}
