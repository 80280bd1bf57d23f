using Microsoft.AspNetCore.Mvc;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sheets;
using ShopFluids.Core.Wording;
using ShopFluids.Printing.Sheets.History;
using ShopFluids.Printing.Sheets.Labels;
using ShopFluids.Printing.Sheets.Round;
using ShopFluids.Web.Account;
using ShopFluids.Web.Pages.Sheets.Jobs;
using ShopFluids.Web.Shop;

namespace ShopFluids.Web.Pages.Sheets;

/// <summary>Printed sheets as files. What is wrong with an address is said in a sentence.</summary>
internal static class SheetEndpoints
{
    public static void MapSheets(this IEndpointRouteBuilder endpoints)
    {
        var sheets = endpoints.MapGroup("/sheets").RequireAuthorization(Policies.CanRead);
        sheets.MapGet("/sumps/{tag}/history.pdf", (string tag, string? from, string? to, string? paper, HistorySheetQuery query, SetupCache setups, HttpContext http) =>
            WriteHistoryAsync(tag, from, to, paper, query.OfSumpAsync, setups, http));
        sheets.MapGet("/machines/{tag}/history.pdf", (string tag, string? from, string? to, string? paper, HistorySheetQuery query, SetupCache setups, HttpContext http) =>
            WriteHistoryAsync(tag, from, to, paper, query.OfMachineAsync, setups, http));
        sheets.MapGet("/round.pdf", WriteRoundAsync);
        sheets.MapGet("/labels.pdf", WriteLabelsAsync);
        sheets.MapListSheets();
        sheets.MapSheetJobs();
    }

    // A browser's form sends a field for each ticked box, a person writes S-01,S-02: both are read. Unmarked, an array may be bound from the body.
    private static async Task<IResult> WriteLabelsAsync([FromQuery] string[]? sumps, string? size, string? paper, SumpLabelsQuery query, SetupCache setups, HttpContext http)
    {
        if (!SheetAsk.TryReadPaper(paper, out var sheet))
        {
            return SheetAnswers.Refused(Texts.Sheet_PaperUnknown);
        }

        if (!LabelSizes.TryRead(size, out var labelSize))
        {
            return SheetAnswers.Refused(Texts.Label_SizeUnknown);
        }

        var tags = (sumps ?? []).SelectMany(s => s.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)).ToList();
        var links = new ShopLinks(http.Request.PathBase);
        var result = await query.RunAsync(tags, tag => $"{http.Request.Scheme}://{http.Request.Host}{links.Enter(tag)}", http.RequestAborted);
        if (result.Value is not { } labels)
        {
            return await SheetAnswers.RefusedAsync(result.Error, setups, http);
        }

        return labels.Labels.Count == 0
            ? SheetAnswers.Refused(Texts.Label_NoSumps, StatusCodes.Status404NotFound)
            : SheetAnswers.File(http, $"labels-{labels.PrintedAtUtc:yyyy-MM-dd}.pdf", file => SumpLabelsPdf.Write(labels, labelSize, sheet, file));
    }

    private static async Task<IResult> WriteRoundAsync(string? all, string? paper, RoundSheetQuery query, HttpContext http)
    {
        if (!SheetAsk.TryReadPaper(paper, out var size))
        {
            return SheetAnswers.Refused(Texts.Sheet_PaperUnknown);
        }

        // The code on paper is scanned with the tablet's camera, which needs the whole address.
        var links = new ShopLinks(http.Request.PathBase);
        var sheet = await query.RunAsync(all == "1", http.User.ShownName(), tag => $"{http.Request.Scheme}://{http.Request.Host}{links.OnPaper(tag)}", http.RequestAborted);
        return SheetAnswers.File(http, $"round-{sheet.PrintedAtUtc:yyyy-MM-dd}.pdf", file => RoundSheetPdf.Write(sheet, size, file));
    }

    private static async Task<IResult> WriteHistoryAsync(
        string tag,
        string? from,
        string? to,
        string? paper,
        Func<HistorySheetRequest, CancellationToken, Task<Result<HistorySheets>>> query,
        SetupCache setups,
        HttpContext http)
    {
        if (SheetAsk.Read(from, to, paper, out var ask) is { } fault)
        {
            return SheetAnswers.Refused(fault);
        }

        var result = await query(new HistorySheetRequest(tag, ask.From, ask.To, http.User.ShownName()), http.RequestAborted);
        return result.Value is { } sheets
            ? SheetAnswers.File(http, $"history-{sheets.Tag}-{sheets.From:yyyy-MM-dd}-{sheets.To:yyyy-MM-dd}.pdf", file => HistorySheetPdf.Write(sheets.Sheets, ask.Paper, file))
            : await SheetAnswers.RefusedAsync(result.Error, setups, http);
    }
}
