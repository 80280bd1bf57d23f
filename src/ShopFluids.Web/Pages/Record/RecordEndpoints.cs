using System.Globalization;
using System.Text;
using Microsoft.Net.Http.Headers;
using ShopFluids.Core.Record.Trail;
using ShopFluids.Core.Time;
using ShopFluids.Web.Account;

namespace ShopFluids.Web.Pages.Record;

/// <summary>The record as a file (RFC 4180), with whole fingerprints and the rows as they are kept: enough to prove the chain elsewhere.</summary>
internal static class RecordEndpoints
{
    private const string Columns = "number,at,person,personId,station,stationId,act,subject,changes,previousHash,hash";

    // What a spreadsheet would take for a formula.
    private const string FormulaSigns = "=+-@\t\r";

    public static void MapRecordFile(this IEndpointRouteBuilder endpoints) => endpoints.MapGet("/" + RecordAddress.File, Write).RequireAuthorization(Policies.CanAudit);

    private static IResult Write(string? from, string? to, string? who, string? what, string? about, TrailQuery query, ShopClock clock, HttpContext http)
    {
        var filter = RecordAddress.Read(from, to, who, what, about, before: null);
        var name = string.Create(CultureInfo.InvariantCulture, $"record-{clock.UtcNow:yyyy-MM-dd}.csv");
        http.Response.Headers.ContentDisposition = new ContentDispositionHeaderValue("attachment") { FileNameStar = name }.ToString();
        return Results.Stream(stream => WriteAsync(query.AllAsync(filter, http.RequestAborted), stream, http.RequestAborted), "text/csv; charset=utf-8");
    }

    private static async Task WriteAsync(IAsyncEnumerable<NamedEntry> entries, Stream stream, CancellationToken cancellationToken)
    {
        await using var writer = new StreamWriter(stream, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false), leaveOpen: true) { NewLine = "\r\n" };
        await writer.WriteLineAsync(Columns);
        await foreach (var entry in entries.WithCancellation(cancellationToken))
        {
            await writer.WriteLineAsync(Line(entry));
        }
    }

    private static string Line(NamedEntry named) => string.Join(
        ',',
        named.Entry.Sequence.ToString(CultureInfo.InvariantCulture),
        named.Entry.AtUtc.ToString("yyyy-MM-ddTHH:mm:ss.fffZ", CultureInfo.InvariantCulture),
        Quoted(Harmless(named.Person)),
        named.Entry.ActorId?.ToString("D") ?? "",
        Quoted(Harmless(named.Entry.StationName ?? "")),
        named.Entry.StationId?.ToString("D") ?? "",
        named.Entry.Code,
        Quoted(Harmless(named.Subject)),
        Quoted(named.Entry.Changes),
        named.Entry.PreviousHash,
        named.Entry.Hash);

    private static string Quoted(string text) => $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";

    private static string Harmless(string text) => text.Length > 0 && FormulaSigns.Contains(text[0], StringComparison.Ordinal) ? "'" + text : text;
}
