using ShopFluids.Printing.Fonts;
using ShopFluids.Printing.Layout;
using Xunit;

namespace ShopFluids.Printing.Tests.Layout;

public sealed class TextLinesTests
{
    private const double Size = 10;

    [Fact]
    public void Break_TextThatFits_StaysOnOneLine()
    {
        const string text = "One line of words";

        Assert.Equal([text], TextLines.Break(text, PrintFace.Regular, Size, PrintFonts.Measure(text, PrintFace.Regular, Size)));
    }

    [Fact]
    public void Break_LongText_KeepsEveryWordAndTheWidth()
    {
        var text = string.Join(' ', Enumerable.Range(0, 80).Select(n => new string((char)('a' + (n % 26)), (n % 9) + 1)));

        var lines = TextLines.Break(text, PrintFace.Regular, Size, 90);

        Assert.Equal(text, string.Join(' ', lines));
        Assert.All(lines, l => Assert.True(PrintFonts.Measure(l, PrintFace.Regular, Size) <= 90.1));
    }

    [Fact]
    public void Break_WordWiderThanTheLine_IsBrokenInside()
    {
        var word = new string('w', 50);

        var lines = TextLines.Break("a " + word, PrintFace.Regular, Size, 60);

        Assert.Equal("a" + word, string.Concat(lines));
        Assert.All(lines, l => Assert.True(PrintFonts.Measure(l, PrintFace.Regular, Size) <= 60.1));
    }

    [Fact]
    public void Break_LineBreaksInTheText_AreKept() =>
        Assert.Equal(["first", "", "second"], TextLines.Break("first\r\n\nsecond", PrintFace.Regular, Size, 200));

    [Fact]
    public void Share_RoomForAll_GivesTheRestToTheTakers() =>
        Assert.Equal([30, 50, 120], TableWidths.Share([(10, 30, false), (20, 50, false), (10, 60, true)], 200));

    [Fact]
    public void Share_TooNarrow_ShortColumnsKeepTheirLine()
    {
        var widths = TableWidths.Share([(10, 30, false), (20, 500, true), (10, 25, false)], 120);

        Assert.Equal([30, 65, 25], widths);
    }

    [Fact]
    public void Share_NarrowerThanTheWords_ShrinksEveryColumnAlike() =>
        Assert.Equal([25, 50, 25], TableWidths.Share([(50, 60, false), (100, 100, false), (50, 50, true)], 100));
}
