using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Pages.Bench.Pictures;

/// <summary>Draws the picture of a result.</summary>
public sealed partial class BenchDrawing
{
    [Parameter, EditorRequired]
    public required BenchPicture Picture { get; set; }

    [Parameter, EditorRequired]
    public required ShopFormat Format { get; set; }

    [Parameter, EditorRequired]
    public required string Title { get; set; }

    private string Said(BenchSumps sumps) => $"{Title}: {string.Join("; ", sumps.Sumps.Select(s => $"{s.Remark}, {s.Caption}"))}";

    private string Said(BarsLayout bars) => $"{Title}: {string.Join("; ", bars.Bars.Select(b => $"{b.Name} {b.Words}"))}";

    private string Said(CurvesLayout lines) => $"{Title}: {lines.YTitle}, {lines.XTitle}";

    // Written by hand, because the compiler of pages takes a text element for a tag of its own.
    private static RenderFragment Words(string x, string y, string words, string look) => builder =>
    {
        builder.OpenElement(0, "text");
        builder.AddAttribute(1, "x", x);
        builder.AddAttribute(2, "y", y);
        builder.AddAttribute(3, "class", look);
        builder.AddContent(4, words);
        builder.CloseElement();
    };
}
