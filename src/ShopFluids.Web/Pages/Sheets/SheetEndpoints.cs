using System.Globalization;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.Net.Http.Headers;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sheets;
using ShopFluids.Core.Wording;
using ShopFluids.Printing;
using ShopFluids.Printing.Sheets.History;
using ShopFluids.Printing.Sheets.Labels;
using ShopFluids.Printing.Sheets.Round;
using ShopFluids.Web.Account;
using ShopFluids.Web.Shop;

namespace ShopFluids.Web.Pages.Sheets;

/// <summary>Printed sheets as files. What is wrong with an address is said in a sentence.</summary>
internal static class SheetEndpoints
{
    public const string DayFormat = "yyyy-MM-dd";

    public static void MapSheets(this IEndpointRouteBuilder endpoints)
    {
        var sheets = endpoints.MapGroup("/sheets").RequireAuthorization(Policies.CanRead);
        sheets.MapGet("/sumps/{tag}/history.pdf", (string tag, string? from, string? to, string? paper, HistorySheetQuery query, SetupCache setups, HttpContext http) =>
            WriteAsync(tag, from, to, paper, query.OfSumpAsync, setups, http));
        sheets.MapGet("/machines/{tag}/history.pdf", (string tag, string? from, string? to, string? paper, HistorySheetQuery query, SetupCache setups, HttpContext http) =>
            WriteAsync(tag, from, to, paper, query.OfMachineAsync, setups, http));
        sheets.MapGet("/round.pdf", WriteRoundAsync);
        sheets.MapGet("/labels.pdf", WriteLabelsAsync);
    }

    // A browser's form sends a field for each ticked box, a person writes S-01,S-02: both are read.
    private static async Task<IResult> WriteLabelsAsync(string[]? sumps, string? size, string? paper, SumpLabelsQuery query, SetupCache setups, HttpContext http)
    {
        if (!TryReadPaper(paper, out var sheet))
        {
            return Refused(Texts.Sheet_PaperUnknown, StatusCodes.Status400BadRequest);
        }

        if (!LabelSizes.TryRead(size, out var labelSize))
        {
            return Refused(Texts.Label_SizeUnknown, StatusCodes.Status400BadRequest);
        }

        var tags = (sumps ?? []).SelectMany(s => s.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)).ToList();
        var links = new ShopLinks(http.Request.PathBase);
        var result = await query.RunAsync(tags, tag => $"{http.Request.Scheme}://{http.Request.Host}{links.Enter(tag)}", http.RequestAborted);
        if (result.Value is not { } labels)
        {
            return Refused(await SayAsync(result.Error, setups, http.RequestAborted), StatusCodes.Status404NotFound);
        }

        if (labels.Labels.Count == 0)
        {
            return Refused(Texts.Label_NoSumps, StatusCodes.Status404NotFound);
        }

        var file = new MemoryStream();
        SumpLabelsPdf.Write(labels, labelSize, sheet, file);
        file.Position = 0;
        http.Response.Headers.ContentDisposition = new ContentDispositionHeaderValue("inline") { FileNameStar = string.Create(CultureInfo.InvariantCulture, $"labels-{labels.PrintedAtUtc:yyyy-MM-dd}.pdf") }.ToString();
        return Results.Stream(file, "application/pdf");
    }

    private static async Task<IResult> WriteRoundAsync(string? all, string? paper, RoundSheetQuery query, HttpContext http)
    {
        if (!TryReadPaper(paper, out var size))
        {
            return Refused(Texts.Sheet_PaperUnknown, StatusCodes.Status400BadRequest);
        }

        // The code on paper is scanned with the tablet's camera, which needs the whole address.
        var links = new ShopLinks(http.Request.PathBase);
        var sheet = await query.RunAsync(all == "1", http.User.ShownName(), tag => $"{http.Request.Scheme}://{http.Request.Host}{links.OnPaper(tag)}", http.RequestAborted);
        var file = new MemoryStream();
        RoundSheetPdf.Write(sheet, size, file);
        file.Position = 0;
        var name = string.Create(CultureInfo.InvariantCulture, $"round-{sheet.PrintedAtUtc:yyyy-MM-dd}.pdf");
        http.Response.Headers.ContentDisposition = new ContentDispositionHeaderValue("inline") { FileNameStar = name }.ToString();
        return Results.Stream(file, "application/pdf");
    }

    private static async Task<IResult> WriteAsync(
        string tag,
        string? from,
        string? to,
        string? paper,
        Func<HistorySheetRequest, CancellationToken, Task<Result<HistorySheets>>> query,
        SetupCache setups,
        HttpContext http)
    {
        if (!TryReadDay(from, out var first) || !TryReadDay(to, out var last))
        {
            return Refused(Texts.Sheet_DayNotReadable, StatusCodes.Status400BadRequest);
        }

        if (!TryReadPaper(paper, out var size))
        {
            return Refused(Texts.Sheet_PaperUnknown, StatusCodes.Status400BadRequest);
        }

        var result = await query(new HistorySheetRequest(tag, first, last, http.User.ShownName()), http.RequestAborted);
        if (result.Value is not { } sheets)
        {
            var isUnknown = result.Error is SumpNotFound or MachineNotFound or MachineWithoutSump;
            return Refused(await SayAsync(result.Error, setups, http.RequestAborted), isUnknown ? StatusCodes.Status404NotFound : StatusCodes.Status400BadRequest);
        }

        // The writer is not asynchronous; a sheet is small, so it is made whole and then sent.
        var file = new MemoryStream();
        HistorySheetPdf.Write(sheets.Sheets, size, file);
        file.Position = 0;
        var name = string.Create(CultureInfo.InvariantCulture, $"history-{sheets.Tag}-{sheets.From:yyyy-MM-dd}-{sheets.To:yyyy-MM-dd}.pdf");
        http.Response.Headers.ContentDisposition = new ContentDispositionHeaderValue("inline") { FileNameStar = name }.ToString();
        return Results.Stream(file, "application/pdf");
    }

    private static async Task<string> SayAsync(Error? error, SetupCache setups, CancellationToken cancellationToken)
    {
        var setup = await setups.CurrentAsync(cancellationToken);
        var say = new Sentences(setup.FormatFor(), setup);
        return error switch
        {
            MachineNotFound unknown => say.Format.Say(Texts.Sheet_MachineUnknown, unknown.Tag),
            MachineWithoutSump bare => say.Format.Say(Texts.Sheet_MachineWithoutSump, bare.Tag),
            PeriodNotValid period => period.From > period.To ? Texts.Sheet_PeriodEndsFirst : say.Format.Say(Texts.Sheet_PeriodTooLong, say.Format.Count(period.MostDays)),
            { } known => say.Error(known),
            null => Texts.Failure_Server,
        };
    }

    private static RazorComponentResult<SheetRefused> Refused(string sentence, int status) =>
        new RazorComponentResult<SheetRefused>(new { Sentence = sentence }) { StatusCode = status };

    /// <summary>A day as addresses write it; nothing is no day and no fault.</summary>
    private static bool TryReadDay(string? text, out DateOnly? day)
    {
        day = null;
        if (string.IsNullOrEmpty(text))
        {
            return true;
        }

        if (!DateOnly.TryParseExact(text, DayFormat, CultureInfo.InvariantCulture, DateTimeStyles.None, out var read))
        {
            return false;
        }

        day = read;
        return true;
    }

    private static bool TryReadPaper(string? text, out PaperSize paper)
    {
        paper = string.Equals(text, "letter", StringComparison.OrdinalIgnoreCase) ? PaperSize.Letter : PaperSize.A4;
        return string.IsNullOrEmpty(text) || paper == PaperSize.Letter || string.Equals(text, "a4", StringComparison.OrdinalIgnoreCase);
    }
}
