using System.Collections;
using System.Globalization;
using ShopFluids.Core.Wording;
using ShopFluids.Printing.Fonts;
using Xunit;

namespace ShopFluids.Printing.Tests.Fonts;

public sealed class PrintFontsTests
{
    // What quantities, dates and names of the languages around us need.
    private const string Used =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789 .,:;!?()[]/\\'\"+-=<>%&#@*_·°µμ±Δ×–—−€£„“”‚‘’…≤≥²³" +
        "ÄÖÜäöüßÀÁÂÃÅÆÇÈÉÊËÌÍÎÏÑÒÓÔÕØÙÚÛÝàáâãåæçèéêëìíîïñòóôõøùúûýÿĄĆĘŁŃÓŚŹŻąćęłńóśźżČĎĚŇŘŠŤŮŽčďěňřšťůžŐŰőűȘȚșțĂăĞğİıŞş\u00a0\u202f";

    [Theory]
    [InlineData(PrintFace.Regular)]
    [InlineData(PrintFace.Bold)]
    [InlineData(PrintFace.Mono)]
    public void Has_CharactersOfTheSheets_AreInTheFace(PrintFace face) =>
        Assert.Empty(Used.EnumerateRunes().Where(r => !PrintFonts.Has(r, face)).Select(r => r.ToString()));

    [Fact]
    public void Printable_TextsOfTheSheets_NeedNoSubstitute()
    {
        var texts = Texts.ResourceManager.GetResourceSet(CultureInfo.InvariantCulture, createIfNotExists: true, tryParents: true)!
            .Cast<DictionaryEntry>().Where(t => ((string)t.Key).StartsWith("Sheet_", StringComparison.Ordinal)).Select(t => (string)t.Value!).ToList();

        Assert.True(texts.Count > 50);
        Assert.All(texts, t => Assert.Equal(t, PrintFonts.Printable(t, PrintFace.Regular)));
    }

    [Theory]
    [InlineData(PrintFace.Regular)]
    [InlineData(PrintFace.Bold)]
    [InlineData(PrintFace.Mono)]
    public void Measure_Digits_AreAllAsWide(PrintFace face) =>
        Assert.Single("0123456789".Select(d => PrintFonts.Measure(d.ToString(), face, 10)).Distinct());

    // Advance widths as the face's own table hmtx gives them, in thousandths of the size.
    [Theory]
    [InlineData("A", PrintFace.Regular, 6.26)]
    [InlineData("i", PrintFace.Regular, 2.52)]
    [InlineData("Lot 7", PrintFace.Mono, 31.60)]
    [InlineData("", PrintFace.Bold, 0)]
    public void Measure_Text_AddsItsAdvanceWidths(string text, PrintFace face, double width) => Assert.Equal(width, PrintFonts.Measure(text, face, 10), 2);

    [Theory]
    [InlineData("Größe 5 µm", "Größe 5 µm")]
    [InlineData("mg/L CaCO\u2083", "mg/L CaCO3")]
    [InlineData("cafe\u0301", "café")]
    [InlineData("a\tb\u0007c", "a b c")]
    [InlineData("see \u2192 \u65e5\u672c \U0001F600", "see ? ?? ?")]
    public void Printable_CharactersTheFaceLacks_AreReplacedVisibly(string text, string expected) =>
        Assert.Equal(expected, PrintFonts.Printable(text, PrintFace.Regular));

    // A letter and its accent in two characters are drawn as one, and measured as one; dashes and quotation marks as they stand.
    [Theory]
    [InlineData("Cafe\u0301", "Caf\u00e9")]
    [InlineData("a\u0308\u2013\u201cb\u201d", "\u00e4\u2013\u201cb\u201d")]
    public void Measure_CharactersThatCompose_AsComposed(string text, string composed)
    {
        Assert.Equal(composed, PrintFonts.Printable(text, PrintFace.Regular));
        Assert.Equal(PrintFonts.Measure(composed, PrintFace.Regular, 10), PrintFonts.Measure(text, PrintFace.Regular, 10));
    }
}
