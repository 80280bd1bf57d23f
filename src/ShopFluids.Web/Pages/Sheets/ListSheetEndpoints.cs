using ShopFluids.Core.Setup;
using ShopFluids.Core.Sheets.DosingLogs;
using ShopFluids.Core.Sheets.InstrumentChecks;
using ShopFluids.Core.Sheets.LotTraces;
using ShopFluids.Core.Sheets.MonthlySummaries;
using ShopFluids.Core.Sheets.OverdueWork;
using ShopFluids.Core.Sheets.WasteLogs;
using ShopFluids.Core.Wording;
using ShopFluids.Printing.Sheets.DosingLogs;
using ShopFluids.Printing.Sheets.InstrumentChecks;
using ShopFluids.Printing.Sheets.LotTraces;
using ShopFluids.Printing.Sheets.MonthlySummaries;
using ShopFluids.Printing.Sheets.OverdueWork;
using ShopFluids.Printing.Sheets.WasteLogs;
using ShopFluids.Web.Account;

namespace ShopFluids.Web.Pages.Sheets;

/// <summary>The sheets that are not about one sump.</summary>
internal static class ListSheetEndpoints
{
    public const string ByArea = "area";
    public const string ByPerson = "person";

    public static void MapListSheets(this IEndpointRouteBuilder sheets)
    {
        sheets.MapGet("/lot.pdf", WriteLotAsync);
        sheets.MapGet("/overdue.pdf", WriteOverdueAsync);
        sheets.MapGet("/waste.pdf", WriteWasteAsync);
        sheets.MapGet("/dosing.pdf", WriteDosingAsync);
        sheets.MapGet("/month.pdf", WriteMonthAsync);
        sheets.MapGet("/instruments.pdf", WriteInstrumentsAsync);
    }

    private static async Task<IResult> WriteLotAsync(string? lot, string? from, string? to, string? paper, LotSheetQuery query, SetupCache setups, HttpContext http)
    {
        if (string.IsNullOrWhiteSpace(lot))
        {
            return SheetAnswers.Refused(Texts.LotSheet_Missing);
        }

        if (SheetAsk.Read(from, to, paper, out var ask) is { } fault)
        {
            return SheetAnswers.Refused(fault);
        }

        var result = await query.RunAsync(new LotSheetRequest(lot, ask.From, ask.To, http.User.ShownName()), http.RequestAborted);
        return result.Value is { } sheets
            ? SheetAnswers.File(http, $"lot-{sheets.Number}.pdf", file => LotSheetPdf.Write(sheets.Sheets, ask.Paper, file))
            : await SheetAnswers.RefusedAsync(result.Error, setups, http);
    }

    private static async Task<IResult> WriteOverdueAsync(string? by, string? paper, OverdueSheetQuery query, HttpContext http)
    {
        if (!SheetAsk.TryReadPaper(paper, out var size))
        {
            return SheetAnswers.Refused(Texts.Sheet_PaperUnknown);
        }

        if (by is not (null or "" or ByArea or ByPerson))
        {
            return SheetAnswers.Refused(Texts.OverdueSheet_OrderUnknown);
        }

        var sheet = await query.RunAsync(by == ByPerson, http.User.ShownName(), http.RequestAborted);
        return SheetAnswers.File(http, $"overdue-{sheet.Frame.Origin.PrintedAtUtc:yyyy-MM-dd}.pdf", file => OverdueSheetPdf.Write(sheet, size, file));
    }

    private static async Task<IResult> WriteWasteAsync(string? from, string? to, string? paper, WasteSheetQuery query, SetupCache setups, HttpContext http)
    {
        if (SheetAsk.Read(from, to, paper, out var ask) is { } fault)
        {
            return SheetAnswers.Refused(fault);
        }

        var result = await query.RunAsync(ask.From, ask.To, http.User.ShownName(), http.RequestAborted);
        return result.Value is { } sheet
            ? SheetAnswers.File(http, $"waste-{sheet.Frame.Origin.PrintedAtUtc:yyyy-MM-dd}.pdf", file => WasteSheetPdf.Write(sheet, ask.Paper, file))
            : await SheetAnswers.RefusedAsync(result.Error, setups, http);
    }

    private static async Task<IResult> WriteDosingAsync(string? from, string? to, string? paper, DoseSheetQuery query, SetupCache setups, HttpContext http)
    {
        if (SheetAsk.Read(from, to, paper, out var ask) is { } fault)
        {
            return SheetAnswers.Refused(fault);
        }

        var result = await query.RunAsync(ask.From, ask.To, http.User.ShownName(), http.RequestAborted);
        return result.Value is { } sheet
            ? SheetAnswers.File(http, $"dosing-{sheet.Frame.Origin.PrintedAtUtc:yyyy-MM-dd}.pdf", file => DoseSheetPdf.Write(sheet, ask.Paper, file))
            : await SheetAnswers.RefusedAsync(result.Error, setups, http);
    }

    private static async Task<IResult> WriteMonthAsync(string? month, string? paper, MonthSheetQuery query, SetupCache setups, HttpContext http)
    {
        if (!SheetAsk.TryReadPaper(paper, out var size))
        {
            return SheetAnswers.Refused(Texts.Sheet_PaperUnknown);
        }

        if (!SheetAsk.TryReadMonth(month, out var first))
        {
            return SheetAnswers.Refused(Texts.MonthSheet_NotReadable);
        }

        var result = await query.RunAsync(first, http.User.ShownName(), http.RequestAborted);
        return result.Value is { } sheet
            ? SheetAnswers.File(http, $"month-{month ?? "now"}.pdf", file => MonthSheetPdf.Write(sheet, size, file))
            : await SheetAnswers.RefusedAsync(result.Error, setups, http);
    }

    private static async Task<IResult> WriteInstrumentsAsync(string? from, string? to, string? paper, InstrumentSheetQuery query, SetupCache setups, HttpContext http)
    {
        if (SheetAsk.Read(from, to, paper, out var ask) is { } fault)
        {
            return SheetAnswers.Refused(fault);
        }

        var result = await query.RunAsync(ask.From, ask.To, http.User.ShownName(), http.RequestAborted);
        return result.Value is { } sheet
            ? SheetAnswers.File(http, $"instruments-{sheet.Frame.Origin.PrintedAtUtc:yyyy-MM-dd}.pdf", file => InstrumentSheetPdf.Write(sheet, ask.Paper, file))
            : await SheetAnswers.RefusedAsync(result.Error, setups, http);
    }
}
