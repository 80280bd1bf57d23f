using ShopFluids.Core.Sheets;
using ShopFluids.Core.Sheets.DosingLogs;
using ShopFluids.Core.Sheets.InstrumentChecks;
using ShopFluids.Core.Sheets.LotTraces;
using ShopFluids.Core.Sheets.MonthlySummaries;
using ShopFluids.Core.Sheets.OverdueWork;
using ShopFluids.Core.Sheets.WasteLogs;
using ShopFluids.Rules;

namespace ShopFluids.Printing.Tests.Sheets;

/// <summary>Believable sheets about the whole shop, as the queries would hand them over. A length makes them as long as a test wants.</summary>
internal static class SampleLists
{
    public static readonly DateTime Printed = new(2026, 11, 25, 13, 40, 0, DateTimeKind.Utc);
    private const string Period = "1 Jan to 25 Nov 2026";
    private static readonly SheetVerdict InRange = new(Verdict.InRange, Direction.None, "holds");
    private static readonly SheetVerdict PhLow = new(Verdict.Warning, Direction.Low, "Warning, low");
    private static readonly SheetVerdict StrengthHigh = new(Verdict.Action, Direction.High, "Action, high");

    public static LotSheet Lot(int rows = 1, string machine = "M-07", string remark = "") => new(
        Frame("2611-A", "Lot trace"),
        new("2611-A", "Semi-synthetic 60", "1 Nov 2026", "1 Nov 2027", "200.0 L", "41.5 L", "156.5 L", "Usable", "2.0 L that neither pours nor counts explain"),
        "Charges that ran on it: 3. Sumps: 2. Machines: 2. Concentrate poured into them: 41.5 L.",
        Repeat<LotSheetCharge>(rows, new("S-07", machine, "14", "31 Aug 2026, still in", "12.8", "2609-C Semi-synthetic 60, 7.4 L\n2608-B Semi-synthetic 60, 12.8 L"), new("S-11", "M-11, M-12", "6", "4 Nov 2026 to 20 Nov 2026", "28.7", "no other lot")),
        Repeat<LotSheetPour>(rows, new("4 Nov 08:10", "S-11", "fill", "24.0", "276.0", "J. Karrow", ""), new("19 Nov 08:10", "S-07", "top-up", "2.0", "34.0", "T. Vell", "Quarantine lifted by phone, the maker's letter follows" + remark)),
        Repeat(rows, new LotSheetBack("S-07", machine, "14", "31 Aug 2026, still in", "2608-B Semi-synthetic 60, 12.8 L\n2609-C Semi-synthetic 60, 7.4 L\n2611-A Semi-synthetic 60, 12.8 L")),
        Repeat(rows, new LotSheetCount("20 Nov 15:00", "counted", "158.5", "156.5", "M. Ostrey", "Dipstick")));

    public static OverdueSheet Overdue(int rows = 1, string machine = "M-07 turning centre", string remark = "") => new(
        Frame("Overdue", "Overdue and due today", "25 Nov 2026"),
        "by area",
        "3 late, 2 due today",
        false,
        [
            new(
                "North bay",
                Repeat<OverdueTask>(rows,
                    new("S-07", machine, "Test: Concentration, pH", Late("2 days late"), "J. Karrow"),
                    new("S-07", machine, "Add 11.5 L of water with 0.6 L of concentrate" + remark, Late("3 h late"), "nobody"),
                    new("S-09", "M-09 five-axis mill", "Skim the oil", Today(), "T. Vell")),
                Repeat<OverdueFlag>(rows, new("S-07", PhLow, "pH 8.6, under the warning limit of 8.7" + remark, "25 Nov 14:26"), new("S-09", StrengthHigh, "Concentration 12.4 %, over the action limit of 10.5", "24 Nov 13:40"))),
            new("Grinding", Repeat(rows, new OverdueTask("S-21", "M-21 surface grinder", "Change the filter", Late("1 day late"), "M. Ostrey")), []),
        ],
        Repeat(rows, new OverdueStore("R-3 was last checked on 12 Nov 2026; a check holds for 7 days. Check it now: what is read with it meanwhile is marked.", Today())));

    public static WasteSheet Waste(int rows = 1, string machine = "S-07", string remark = "") => new(
        Frame("Waste", "Waste and disposal log"),
        "1,204 L",
        "1,180 L",
        "24.0 L",
        Repeat<WasteSheetCode>(rows, new("12 01 09*", "emulsion or solution, no halogens", "9", "1,120"), new("12 01 14*", "sludge with hazardous substances", "3", "60.0"), new("not recorded", "", "1", "24.0")),
        Repeat<WasteSheetMonth>(rows, new("Nov 2026", "12 01 09*", "310.0", "334.0"), new("", "not recorded", "24.0", ""), new("Oct 2026", "12 01 09*", "810.0", "870.0"), new("", "12 01 14*", "60.0", "")),
        Repeat<WasteSheetEntry>(rows,
            new("20 Nov 15:00", "2605-D", "concentrate thrown away", "not recorded", "24.0", "not tested", "Expired; fetched by the waste carrier with note 88213" + remark, "M. Ostrey"),
            new("12 Nov 08:40", machine, "clean-out: Drain", "12 01 09*", "141.0", "1,250 mg/kg: presumed hazardous", "Harrow Vale Carriers, note 2026-1188", "J. Karrow"),
            new("12 Nov 09:20", machine, "clean-out: Wipe out", "12 01 14*", "12.0", "", "Harrow Vale Carriers, note 2026-1188", "J. Karrow"),
            new("3 Nov 11:05", "S-11", "removal", "12 01 09*", "18.0", "not tested", "not recorded", "T. Vell")));

    public const string StruckReason = "Struck out 2 Aug 11:02 by M. Ostrey: it went into S-08";

    public static DoseSheet Dosing(int rows = 1, string machine = "S-07", string remark = "") => new(
        Frame("Dosing", "Dosing log"),
        "4",
        "2",
        Repeat<DoseSheetTotal>(rows, new("Biocide B-20", "biocide", "2", "890 mL"), new("Defoamer D-3", "defoamer", "1", "73 mL"), new("Fungicide F-5", "fungicide", "1", "86 g")),
        Repeat<DoseSheetEntry>(rows,
            new("19 Nov 07:40", machine, "Biocide B-20", "biocide", "240 mL", "1 mL/L", "1.5 mL/L", "19 Nov 11:40", "Smell on Monday mornings, slide at 5.1 log" + remark, "M. Ostrey"),
            new("6 Nov 09:10", "S-11", "Defoamer D-3", "defoamer", "73 mL", "0.3 mL/L", "0.5 mL/L", "not recorded", "Foam at the high-pressure pump", "J. Karrow"),
            new("15 Oct 08:05", "S-21", "Fungicide F-5", "fungicide", "86 g", "0.4 g/L", "0.5 g/L", "15 Oct 10:05", "Slime in the wash-down hose, which is renewed", "M. Ostrey"),
            new("3 Aug 10:20", "S-08", "Emulsion stabiliser E-1", "stabiliser or emulsifier", "420 mL", "2 mL/L", "not recorded", "not recorded", "(!) Against its label: poured twice. Cream on top after the plain water of last week", "R. Quillan"),
            new("2 Aug 10:20", "S-09", "Defoamer D-3", "defoamer", "61 mL", "0.3 mL/L", "0.5 mL/L", "not recorded", "Foam at the weir", "J. Karrow", StruckReason)));

    public static MonthSheet Month(int rows = 1, string machine = "S-07", string remark = "") => new(
        Frame("Nov 2026", "Monthly summary", "1 Nov to 25 Nov 2026"),
        new("64.3 L", "418.20 EUR, without 4.0 L of unknown price", "88", "11 of 12", "2 of 3", "171 days"),
        Repeat<MonthSheetUse>(rows, new("Semi-synthetic 60" + remark, "24.0", "31.3", "612.0", "141.0", "359.45 EUR"), new("Grinding synthetic 20", "", "9.0", "240.0", "", "58.75 EUR, without 4.0 L of unknown price")),
        Repeat<MonthSheetWork>(rows, new("Test", "84", "6", "1", "2"), new("Skim the oil", "22", "3", "0", "1"), new("Drain and clean", "3", "1", "0", "0")),
        Repeat<MonthSheetFlags>(rows, new("Limit", "14", "12", "1", "2"), new("Trend to a limit", "5", "4", "1", "0"), new("Late test", "6", "6", "0", "2")),
        Repeat<MonthSheetCharge>(rows, new(machine, "13", "Semi-synthetic 60", "12 May 2026", "12 Nov 2026", "184 days", "141.0", "step by step"), new("S-11", "6", "Semi-synthetic 60", "4 Nov 2026", "20 Nov 2026", "16 days", "290.0", "drain")));

    public static InstrumentSheet Instruments(int rows = 1, string machine = "R-3", string remark = "") => new(
        Frame("Checks", "Instrument check log"),
        "3",
        "1",
        Repeat<InstrumentSheetRow>(rows,
            new(machine, "Refractometer", "0.1 Brix", "0.2 Brix", "7 days", "12 Nov 2026", "19 Nov 2026", Late("6 days late")),
            new("P-1", "pH meter", "0.01 pH", "0.05 pH", "7 days", "23 Nov 2026", "30 Nov 2026", InRange),
            new("L-1", "Rule or dip stick", "1 mm", "2 mm", "Not needed", "", "", new(Verdict.NotMeasured, Direction.None, "Not needed"))),
        Repeat<InstrumentSheetCheck>(rows,
            new("P-1", "23 Nov 2026", new(Verdict.InRange, Direction.None, "Passed"), "7.01: shown -15 mV; 4.01: shown 160 mV", "-14.4 mV", "98.6 %", "M. Ostrey"),
            new(machine, "12 Nov 2026", new(Verdict.Action, Direction.None, "Failed"), "0: shown 0.4 Brix", "0.4 Brix", "", "J. Karrow")),
        Repeat<InstrumentSheetLapse>(rows, new(machine, "20 Nov 06:00", "still", "14", ""), new("P-1", "3 Oct 06:00", "5 Oct 07:20", "6", "Two buffers, slope 97 %, values taken again" + remark)));

    private static SheetFrame Frame(string tag, string sheet, string period = Period) => new(
        tag, sheet, period, "Tarn Hollow Machining", new(Printed, "25 Nov 2026, 14:40", "M. Ostrey", "48,213", SampleSheet.Fingerprint, SampleSheet.Fingerprint, "Europe/Berlin", "en"));

    private static SheetVerdict Late(string words) => new(Verdict.NotMeasured, Direction.None, words, IsLate: true);

    private static SheetVerdict Today() => new(Verdict.NotMeasured, Direction.None, "today");

    private static List<T> Repeat<T>(int times, params T[] rows) => [.. Enumerable.Range(0, times).SelectMany(_ => rows)];
}
