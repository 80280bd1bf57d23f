using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;

namespace ShopFluids.Printing.Pdf;

/// <summary>
/// A pass over a file that PDFsharp wrote. It appends the Adler-32 checksum that the library (6.2.4) leaves off its Flate streams
/// (RFC 1950, section 2.2), says in the metadata that the file is PDF/A-2b (ISO 19005-2, 6.6.4), and puts names drawn from the content in
/// place of the library's random ones, so that the same sheet gives the same bytes. The checksum part can go when the library writes it: a stream that has one is left as it is.
/// </summary>
internal static partial class PdfFinish
{
    private const string NoId = "00000000000000000000000000000000";
    private const string EndOfMetadata = "</rdf:RDF>";
    private const string PdfA = """
          <rdf:Description rdf:about="" xmlns:pdfaid="http://www.aiim.org/pdfa/ns/id/"><pdfaid:part>2</pdfaid:part><pdfaid:conformance>B</pdfaid:conformance></rdf:Description>

        """;
    private const string NoUuid = "uuid:00000000-0000-0000-0000-000000000000";

    public static void Write(byte[] raw, Stream output)
    {
        var source = PdfObjects.Read(raw);
        var tags = new Dictionary<string, string>();
        using var file = new MemoryStream(raw.Length + 256);
        file.Write(raw, 0, source.Objects[0].Start);

        var offsets = new long[source.Objects.Count + 1];
        foreach (var (number, start, end) in source.Objects)
        {
            offsets[number] = file.Position;
            Put(raw.AsSpan(start, end - start), tags, file);
        }

        var table = file.Position;
        Text(file, Invariant($"xref\n0 {offsets.Length}\n0000000000 65535 f \n"));
        foreach (var offset in offsets.Skip(1))
        {
            Text(file, Invariant($"{offset:0000000000} 00000 n \n"));
        }

        Text(file, Invariant($"trailer\n{DocumentId().Replace(source.Trailer, NoId)}\nstartxref\n{table}\n%%EOF\n"));
        output.Write(Named(file.ToArray()));
    }

    /// <summary>Fills in the ids from the content: the hash of the file in which they are still zero.</summary>
    private static byte[] Named(byte[] file)
    {
        var hash = SHA256.HashData(file);
        var id = Convert.ToHexString(hash, 0, 16);
        Replace(file, NoId, id);
        Replace(file, NoUuid, "uuid:" + new Guid(hash.AsSpan(16, 16), bigEndian: true).ToString("D"));
        return file;
    }

    private static void Put(ReadOnlySpan<byte> source, Dictionary<string, string> tags, MemoryStream file)
    {
        var streamAt = source.IndexOf("\nstream\n"u8);
        var head = FontTag().Replace(Encoding.Latin1.GetString(streamAt < 0 ? source : source[..streamAt]), tag => Tag(tag.Value, tags));
        if (streamAt < 0)
        {
            Text(file, head);
            return;
        }

        var body = source[(streamAt + "\nstream\n"u8.Length)..];
        var length = Length().Match(head);
        var size = int.Parse(length.Groups["size"].ValueSpan, CultureInfo.InvariantCulture);
        var data = body[..size].ToArray();
        data = head.Contains("/FlateDecode", StringComparison.Ordinal) ? FlateChecksum.Complete(data) : Metadata(data);
        Text(file, head[..length.Index] + Invariant($"/Length {data.Length}") + head[(length.Index + length.Length)..] + "\nstream\n");
        file.Write(data);
        file.Write(body[size..]);
    }

    // The one stream that is not compressed, so that programs that know nothing of PDF find it.
    private static byte[] Metadata(byte[] source)
    {
        var text = Uuid().Replace(Encoding.Latin1.GetString(source), NoUuid);
        var end = text.IndexOf(EndOfMetadata, StringComparison.Ordinal);
        return end >= 0 ? Encoding.Latin1.GetBytes(text.Insert(end, PdfA)) : throw new InvalidOperationException("The PDF library writes its metadata in another way: there is no place for what makes the file PDF/A.");
    }

    /// <summary>Subset names must differ within the file and have six capital letters (ISO 32000-1, 9.6.4); nothing else matters.</summary>
    private static string Tag(string random, Dictionary<string, string> tags)
    {
        if (!tags.TryGetValue(random, out var tag))
        {
            tag = "/SHEET" + (char)('A' + tags.Count) + "+";
            tags.Add(random, tag);
        }

        return tag;
    }

    private static void Replace(byte[] file, string from, string to)
    {
        var (old, replacement) = (Encoding.ASCII.GetBytes(from), Encoding.ASCII.GetBytes(to));
        for (var at = file.AsSpan().IndexOf(old); at >= 0; at = file.AsSpan().IndexOf(old))
        {
            replacement.CopyTo(file, at);
        }
    }

    private static void Text(MemoryStream file, string text) => file.Write(Encoding.Latin1.GetBytes(text));

    private static string Invariant(FormattableString text) => FormattableString.Invariant(text);

    [GeneratedRegex("/[A-Z]{6}\\+", RegexOptions.None, matchTimeoutMilliseconds: 5000)]
    private static partial Regex FontTag();

    [GeneratedRegex("/Length (?<size>[0-9]+)", RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 5000)]
    private static partial Regex Length();

    [GeneratedRegex("(?<=<)[0-9A-Fa-f]{32}(?=>)", RegexOptions.None, matchTimeoutMilliseconds: 5000)]
    private static partial Regex DocumentId();

    [GeneratedRegex("uuid:[0-9a-f-]{36}", RegexOptions.None, matchTimeoutMilliseconds: 5000)]
    private static partial Regex Uuid();
}
