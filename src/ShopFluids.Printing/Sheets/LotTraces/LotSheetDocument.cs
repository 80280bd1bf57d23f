using ShopFluids.Core.Sheets.LotTraces;
using ShopFluids.Core.Wording;
using ShopFluids.Printing.Drawing;
using ShopFluids.Printing.Fonts;
using ShopFluids.Printing.Layout;

namespace ShopFluids.Printing.Sheets.LotTraces;

/// <summary>A lot on its pages: what it is, where it went, and back from there to all the lots.</summary>
internal static class LotSheetDocument
{
    public static PrintDocument LayOut(LotSheet sheet, PaperSize paper) =>
        SheetPages.LayOut(sheet.Frame, (Texts.Sheet_Fluid, sheet.Lot.Fluid), (Texts.Sheet_Received, sheet.Lot.Received), paper, flow =>
        {
            AddLot(flow, sheet);
            AddCharges(flow, sheet.Charges);
            AddBack(flow, sheet.Back);
            AddPours(flow, sheet.Pours);
            AddCounts(flow, sheet.Counts);
            SignatureLines.Add(flow);
        });

    private static void AddLot(PageFlow flow, LotSheet sheet)
    {
        flow.Facts(
            Texts.LotSheet_Lot,
            [
                new(Texts.LotSheet_ReceivedLitres, sheet.Lot.ReceivedLitres), new(Texts.Sheet_Expiry, sheet.Lot.Expires), new(Texts.InstrumentSheet_Standing, sheet.Lot.State),
                new(Texts.LotSheet_Poured, sheet.Lot.Poured), new(Texts.LotSheet_Remaining, sheet.Lot.Remaining), new(Texts.LotSheet_Books, sheet.Lot.Books),
            ],
            3);
        flow.Note(sheet.Answer);
        flow.EndBlock();
    }

    private static void AddCharges(PageFlow flow, IReadOnlyList<LotSheetCharge> charges) =>
        flow.Table(
            Texts.LotSheet_WhereItWent,
            [
                new(Texts.Board_Sump, Face: PrintFace.Bold, IsWhole: true), new(Texts.Sheet_Machines), new(Texts.Sheet_Charge, IsRight: true), new(Texts.LotSheet_InSump, IsWhole: true),
                new(Texts.LotSheet_ThisLotLitres, IsRight: true), new(Texts.Stores_WhatElse, TakesRest: true),
            ],
            [.. charges.Select(c => new TableRow([c.Sump, c.Machines, c.Charge, c.InSump, c.Litres, c.Others]))],
            Texts.LotSheet_NoCharges);

    private static void AddBack(PageFlow flow, IReadOnlyList<LotSheetBack> back) =>
        flow.Table(
            Texts.LotSheet_Back,
            [
                new(Texts.Board_Sump, Face: PrintFace.Bold, IsWhole: true), new(Texts.Sheet_Machines), new(Texts.Sheet_Charge, IsRight: true), new(Texts.LotSheet_InSump, IsWhole: true),
                new(Texts.LotSheet_AllLots, TakesRest: true),
            ],
            [.. back.Select(c => new TableRow([c.Sump, c.Machines, c.Charge, c.InSump, c.Lots]))],
            Texts.LotSheet_NoBack);

    private static void AddPours(PageFlow flow, IReadOnlyList<LotSheetPour> pours) =>
        flow.Table(
            Texts.LotSheet_Pours,
            [
                new(Texts.Sheet_When, IsWhole: true), new(Texts.Board_Sump, Face: PrintFace.Bold, IsWhole: true), new(Texts.Sheet_What), new(Texts.Sheet_ConcentrateLitres, IsRight: true),
                new(Texts.Sheet_WaterLitres, IsRight: true), new(Texts.Sheet_By, IsWhole: true), new(Texts.LotSheet_Override, TakesRest: true),
            ],
            [.. pours.Select(p => new TableRow([p.When, p.Sump, p.What, p.ConcentrateLitres, p.WaterLitres, p.By, p.Override]))],
            Texts.LotSheet_NoPours);

    private static void AddCounts(PageFlow flow, IReadOnlyList<LotSheetCount> counts) =>
        flow.Table(
            Texts.Stores_Counts,
            [
                new(Texts.Sheet_When, IsWhole: true), new(Texts.Sheet_What), new(Texts.LotSheet_BeforeLitres, IsRight: true), new(Texts.LotSheet_AfterLitres, IsRight: true),
                new(Texts.Sheet_By, IsWhole: true), new(Texts.Sheet_Reason, TakesRest: true),
            ],
            [.. counts.Select(c => new TableRow([c.When, c.What, c.BeforeLitres, c.AfterLitres, c.By, c.Reason]))],
            Texts.LotSheet_NoCounts);
}
