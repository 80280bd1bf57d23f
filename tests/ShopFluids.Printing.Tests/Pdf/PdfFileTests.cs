using System.Buffers.Binary;
using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Text.RegularExpressions;
using ShopFluids.Printing.Pdf;
using ShopFluids.Printing.Tests.Sheets;
using Xunit;

namespace ShopFluids.Printing.Tests.Pdf;

public sealed partial class PdfFileTests
{
    [Fact]
    public void Write_Sheet_EveryFlateStreamEndsWithItsChecksum()
    {
        var file = PrintedSheet.Write(SampleSheet.Build());

        var streams = FlateStreams(file);

        // Three pages, three faces and their three character maps.
        Assert.True(streams.Count >= 9);
        Assert.All(streams, s => Assert.Equal(Adler32(Inflate(s)), BinaryPrimitives.ReadUInt32BigEndian(s.AsSpan(s.Length - 4))));
    }

    [Fact]
    public void Write_Sheet_CrossReferencesPointAtTheirObjects()
    {
        var file = PrintedSheet.Write(SampleSheet.Build());

        var objects = PdfObjects.Read(file).Objects;

        Assert.All(objects, o => Assert.StartsWith(
            string.Create(CultureInfo.InvariantCulture, $"{o.Number} 0 obj"), Encoding.Latin1.GetString(file, o.Start, 20), StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(PaperSize.A4)]
    [InlineData(PaperSize.Letter)]
    public void Write_SameSheetTwice_GivesTheSameBytes(PaperSize paper) =>
        Assert.Equal(PrintedSheet.Write(SampleSheet.Build(), paper), PrintedSheet.Write(SampleSheet.Build(), paper));

    [Fact]
    public async Task Write_FromManyThreads_GivesTheSameBytes()
    {
        var expected = PrintedSheet.Write(SampleSheet.Build());

        var files = await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => Task.Run(() => PrintedSheet.Write(SampleSheet.Build()), TestContext.Current.CancellationToken)));

        Assert.All(files, f => Assert.Equal(expected, f));
    }

    [Fact]
    public void Write_OtherSheet_HasAnotherDocumentId()
    {
        var sheet = SampleSheet.Build();

        var ids = new[] { sheet, sheet with { Title = sheet.Title with { Tag = "S-08" } } }
            .Select(s => DocumentId().Match(Encoding.Latin1.GetString(PrintedSheet.Write(s))).Value).ToList();

        Assert.All(ids, id => Assert.NotEqual("", id));
        Assert.NotEqual(ids[0], ids[1]);
    }

    [Fact]
    public void Write_Sheet_TellsWhatItIsAndWhenItWasPrinted()
    {
        using var printed = PrintedSheet.Of(SampleSheet.Build());

        var info = printed.Document.Information;
        Assert.Equal("Fluid history, sump S-07, 31 Aug to 25 Nov 2026", info.Title);
        Assert.Equal("Coolant record of M-07 turning centre, 31 Aug to 25 Nov 2026", info.Subject);
        Assert.Equal("Tarn Hollow Machining", info.Author);
        Assert.Equal("ShopFluids", info.Creator);
        Assert.Equal(new DateTimeOffset(2026, 11, 25, 13, 40, 0, TimeSpan.Zero), info.GetCreatedDateTimeOffset());
    }

    [Fact]
    public void Write_ShopNameOutsideLatin1_KeepsItInTheMetadata()
    {
        var sheet = SampleSheet.Build();

        using var printed = PrintedSheet.Of(sheet with { Title = sheet.Title with { Shop = "Zakład Łódź, žluťoučký kůň" } });

        Assert.Equal("Zakład Łódź, žluťoučký kůň", printed.Document.Information.Author);
    }

    [Fact]
    public void Write_Sheet_EmbedsItsFacesAsSubsets()
    {
        var text = Encoding.Latin1.GetString(PrintedSheet.Write(SampleSheet.Build()));

        Assert.Equal(3, FontFile().Count(text));
        Assert.Equal(3, SubsetName().Matches(text).Select(m => m.Value).Distinct().Count());
        Assert.True(text.Length < 120_000, "The faces are embedded whole.");
    }

    // ISO 19005-2 (PDF/A-2), what can be seen in the file: 6.1.3 an id, 6.2.3 an output intent with its profile, 6.2.11.4 embedded fonts, 6.5 and 6.6.1 no
    // scripts, 6.6.4 the mark in metadata that are not compressed. How a whole validator was asked stands in docs/decisions/0004-pdfsharp.md.
    [Fact]
    public void Write_Sheet_IsMarkedAsPdfA2bAndHoldsWhatThatAsksFor()
    {
        var text = Encoding.Latin1.GetString(PrintedSheet.Write(SampleSheet.Build()));

        Assert.Equal(1, Count("<pdfaid:part>2</pdfaid:part><pdfaid:conformance>B</pdfaid:conformance>"));
        Assert.Equal(1, Count("/OutputIntents["));
        Assert.Equal(1, Count("/GTS_PDFA1"));
        Assert.Matches(DocumentId(), text);
        Assert.Equal(Count("/FontDescriptor "), Count("/FontFile2 "));
        Assert.All(new[] { "/Encrypt", "/JavaScript", "/JS", "/LZWDecode", "/Launch", "/EmbeddedFile" }, forbidden => Assert.Equal(0, Count(forbidden)));

        int Count(string part) => text.Split(part).Length - 1;
    }

    // RFC 1950 gives the sum; the value for this word is the well-known test vector.
    [Fact]
    public void Adler32_KnownWord_GivesKnownSum() => Assert.Equal(0x11E60398u, FlateChecksum.Adler32("Wikipedia"u8));

    [Fact]
    public void Complete_StreamThatHasItsChecksum_LeavesItAsItIs()
    {
        using var packed = new MemoryStream();
        using (var zlib = new ZLibStream(packed, CompressionLevel.Optimal, leaveOpen: true))
        {
            zlib.Write("a stream with a checksum"u8);
        }

        var whole = packed.ToArray();
        Assert.Same(whole, FlateChecksum.Complete(whole));
        Assert.Equal(whole, FlateChecksum.Complete(whole[..^4]));
    }

    private static List<byte[]> FlateStreams(byte[] file)
    {
        var text = Encoding.Latin1.GetString(file);
        return [.. StreamHead().Matches(text).Where(m => m.Value.Contains("/FlateDecode", StringComparison.Ordinal)).Select(m =>
        {
            var length = int.Parse(Length().Match(m.Value).Groups["size"].ValueSpan, CultureInfo.InvariantCulture);
            return file.AsSpan(m.Index + m.Length, length).ToArray();
        })];
    }

    private static byte[] Inflate(byte[] stream)
    {
        using var inflater = new ZLibStream(new MemoryStream(stream), CompressionMode.Decompress);
        using var plain = new MemoryStream();
        inflater.CopyTo(plain);
        return plain.ToArray();
    }

    // Written out apart from the code under test, from the definition in RFC 1950, section 9.
    private static uint Adler32(byte[] data)
    {
        ulong s1 = 1, s2 = 0;
        foreach (var value in data)
        {
            s1 += value;
            s2 += s1 % 65521;
        }

        return (uint)((s2 % 65521 * 65536) + (s1 % 65521));
    }

    [GeneratedRegex("<<[^\\n]*>>\\nstream\\n", RegexOptions.ExplicitCapture, 5000)]
    private static partial Regex StreamHead();

    [GeneratedRegex("/Length (?<size>[0-9]+)", RegexOptions.ExplicitCapture, 5000)]
    private static partial Regex Length();

    [GeneratedRegex("/ID\\[<[0-9A-F]{32}>", RegexOptions.ExplicitCapture, 5000)]
    private static partial Regex DocumentId();

    [GeneratedRegex("/FontFile2 ", RegexOptions.ExplicitCapture, 5000)]
    private static partial Regex FontFile();

    [GeneratedRegex("/FontName/[A-Z]{6}\\+", RegexOptions.ExplicitCapture, 5000)]
    private static partial Regex SubsetName();
}
