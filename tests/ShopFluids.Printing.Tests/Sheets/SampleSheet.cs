using System.Globalization;
using ShopFluids.Core.Sheets;
using ShopFluids.Rules;

namespace ShopFluids.Printing.Tests.Sheets;

/// <summary>A believable history sheet: one charge over twelve weeks, as the query would hand it over.</summary>
internal static class SampleSheet
{
    public const string Fingerprint = "7c1e90ab4f3d22e8b605d1f983c46a0719be5d20f7a1c83e0d94e26b31f8a75c";
    public const string SupersededReason = "superseded 22 Oct 15:02 by M. Ostrey: concentration typed in place of the scale reading";
    private static readonly DateTime Filled = new(2026, 8, 31, 6, 12, 0, DateTimeKind.Utc);
    private static readonly DateTime Printed = new(2026, 11, 25, 13, 40, 0, DateTimeKind.Utc);
    private static readonly SheetVerdict InRange = new(Verdict.InRange, Direction.None, "In range");
    private static readonly SheetVerdict WarningLow = new(Verdict.Warning, Direction.Low, "Warning, low");
    private static readonly SheetVerdict ActionHigh = new(Verdict.Action, Direction.High, "Action, high");

    // Day of the charge, hour, scale, pH, level, volume, odour, oil: newest first.
    private static readonly (double Day, double Scale, double Ph, int Level, double Volume, string Odour, string Oil, string By)[] Visits =
    [
        (86.3, 5.6, 8.6, 313, 147.9, "slight", "patches", "J. Karrow"), (80.3, 5.5, 8.8, 262, 124.0, "none", "patches", "J. Karrow"),
        (77.1, 5.7, 8.9, 275, 130.0, "none", "patches", "J. Karrow"), (71.1, 5.5, 8.9, 302, 142.6, "none", "patches", "T. Vell"),
        (66.1, 5.6, 9.0, 325, 153.5, "none", "film", "J. Karrow"), (63.3, 5.5, 9.0, 275, 130.0, "none", "film", "T. Vell"),
        (57.1, 5.7, 9.1, 302, 142.5, "none", "film", "J. Karrow"), (52.4, 5.5, 9.1, 325, 153.5, "none", "film", "M. Ostrey"),
        (49.1, 5.7, 9.1, 284, 134.0, "none", "film", "T. Vell"), (43.3, 5.6, 9.2, 311, 147.0, "none", "film", "J. Karrow"),
        (38.1, 5.4, 9.2, 334, 158.0, "none", "film", "T. Vell"), (37.1, 4.2, 9.1, 297, 140.5, "none", "film", "J. Karrow"),
        (32.1, 4.8, 9.1, 320, 151.0, "none", "film", "J. Karrow"), (28.3, 5.1, 9.1, 292, 138.0, "none", "none", "T. Vell"),
        (23.1, 5.3, 9.2, 316, 149.2, "none", "none", "J. Karrow"), (18.1, 5.4, 9.2, 296, 140.0, "none", "none", "T. Vell"),
        (14.1, 5.7, 9.3, 315, 149.0, "none", "none", "J. Karrow"), (9.3, 5.5, 9.2, 296, 140.0, "none", "none", "J. Karrow"),
        (4.1, 5.5, 9.3, 320, 151.0, "none", "none", "T. Vell"), (0, 5.3, 9.3, 339, 160.0, "none", "none", "J. Karrow"),
    ];

    private static readonly double[] AdditionDays = [80.3, 63.3, 49.1, 37.2, 28.3, 18.1, 9.3];

    public static HistorySheet Build() => new(
        new("S-07", "Fluid history, sump S-07", "M-07 turning centre", "North bay", "31 Aug to 25 Nov 2026", "Tarn Hollow Machining"),
        new("Turning centre, 8 inch chuck", "M-07", "turning, steel", "Semi-synthetic 60", "7.0 to 9.0 %", null, null, "160 L", "18 mg/L", "0 mg/L", "118 mg/L CaCO\u2083", "1.5", null, "M. Ostrey"),
        Standing(),
        new("14", "31 Aug 2026", "86 days", "2608-B", "160 L", "147.2 L", "12.8 L", "163.1 L", "10.4 L", "0 L", "118 ± 9 L", "64 ± 9 L", "246 mg/L"),
        [
            new("3", "1 Jun 2026", null,
            [
                new("Concentration, % v/v", "refractometer R-3, factor 1.5", "5.5", "6.5", "7.0 to 9.0", "9.5", "10.5"),
                new("pH", "meter P-1, two buffers", "8.4", "8.7", "8.9 to 9.4", "9.6", "9.8"),
                new("Level, mm, pump stopped", "rule from sump floor", "233", "258", "290 to 345", "354", "364"),
                new("Nitrite, mg/L", "test strip", null, null, null, "15", "20"),
            ]),
        ],
        Trends(),
        [
            new("25 Nov 14:26", WarningLow, "pH 8.6, under the warning limit of 8.7", "open"),
            new("25 Nov 14:26", WarningLow, "pH falls 0.09 a week at steady concentration, odour slight: bacteria under the oil, likely", "open"),
            new("22 Oct 13:40", ActionHigh, "Concentration 12.4 %, over the action limit of 10.5", "22 Oct 15:02, reading superseded"),
            new("7 Oct 08:12", WarningLow, "Concentration 6.3 %, under the warning limit of 6.5", "8 Oct 07:55 by reading, 8.1 %"),
        ],
        Readings(),
        [
            new("19 Nov 08:10", "top-up", "34.0", "2.0", "", "2611-A", "J. Karrow", ""), new("2 Nov 13:30", "top-up", "28.5", "1.5", "", "2609-C", "J. Karrow", ""),
            new("19 Oct 08:55", "top-up", "24.7", "1.3", "", "2609-C", "T. Vell", ""), new("7 Oct 09:05", "adjust", "16.5", "3.0", "", "2609-C", "J. Karrow", "after the warning of 08:12"),
            new("28 Sep 13:35", "top-up", "21.6", "0.4", "", "2609-C", "J. Karrow", ""), new("18 Sep 08:30", "top-up", "18.8", "1.2", "", "2608-B", "T. Vell", ""),
            new("12 Sep 10:00", "removal", "", "", "4.0", "", "T. Vell", "skimmed with the tramp oil"),
            new("9 Sep 13:40", "top-up", "19.0", "1.0", "", "2608-B", "J. Karrow", ""), new("31 Aug 08:00", "fill", "147.2", "12.8", "", "2608-B", "J. Karrow", ""),
        ],
        [
            new("2611-A", "Semi-synthetic 60", "12 Nov 2026", "11 Nov 2027", "2.0"), new("2609-C", "Semi-synthetic 60", "15 Sep 2026", "14 Sep 2027", "6.2"),
            new("2608-B", "Semi-synthetic 60", "3 Aug 2026", "2 Aug 2027", "15.0"),
        ],
        [
            new("25 Nov", "25 Nov 14:31", "Skim tramp oil", "J. Karrow"), new("9 Nov", "10 Nov 15:20", "Change return filter, 1 day late", "T. Vell"),
            new("22 Oct", "22 Oct 15:02", "Test again, other person", "M. Ostrey"), new("12 Oct", "skipped", "Skim: surface clear, nothing to skim", "T. Vell"),
            new("1 Oct", "1 Oct 16:45", "pH meter P-1, slope 96 %", "T. Vell"),
        ],
        new(Printed, "25 Nov 2026 14:40", "M. Ostrey", "48 213", Fingerprint, $"https://coolant.example/record/48213#{Fingerprint}", "UTC+1", "en"));

    /// <summary>A sheet with this many readings, each with a remark of its own to find it by.</summary>
    public static HistorySheet WithReadings(int count)
    {
        var sheet = Build();
        var rows = Enumerable.Range(0, count).Select(n => sheet.Readings.Rows[n % sheet.Readings.Rows.Count] with { Remark = Marker(n), Superseded = null });
        return sheet with { Readings = sheet.Readings with { Rows = [.. rows] } };
    }

    public static string Marker(int reading) => string.Create(CultureInfo.InvariantCulture, $"visit-{reading:0000}");

    /// <summary>A sump that was entered today: no charge, no reading, nothing.</summary>
    public static HistorySheet Empty()
    {
        var sheet = Build();
        return sheet with
        {
            Standing = sheet.Standing with { Rows = [] },
            Charge = null,
            Limits = [],
            Trends = sheet.Trends with { Charts = [.. sheet.Trends.Charts.Select(c => c with { Points = [], AdditionsUtc = [], Limits = [] })] },
            Flags = [],
            Readings = new([], []),
            Movements = [],
            Lots = [],
            Tasks = [],
        };
    }

    private static HistorySheetStanding Standing() => new(
        "25 Nov 2026, 14:26",
        [
            new("Concentration", "8.4 %", "± 0.3", InRange), new("pH", "8.6", "± 0.1", WarningLow), new("Volume", "147.9 L", "of 160", InRange),
            new("Bacteria", "", "slide due Fri 27 Nov", new(Verdict.NotMeasured, Direction.None, "Not measured")),
            new("Water test", "", "was due 23 Nov", new(Verdict.NotMeasured, Direction.None, "2 days late", IsLate: true)),
        ]);

    private static HistorySheetReadings Readings()
    {
        HistorySheetColumn[] columns =
        [
            new("Scale", true, false), new("Concentration %", true, true), new("pH", true, true), new("Level mm", true, false), new("Volume L", true, false),
            new("Odour", false, false), new("Tramp oil", false, false),
        ];
        var rows = Visits.Select(v => Reading(v, v.Day == 43.3 ? "Noise at the return pump, belt tightened; no loss seen at the return hose or under the chip conveyor." : "")).ToList();
        rows.Insert(8, new(
            "22 Oct 13:40", "T. Vell", [new("8.3"), new("12.4", Verdict.Action, Direction.High), new("9.1"), new("325"), new("153.5"), new("none"), new("film")], ActionHigh, "", SupersededReason));
        return new(columns, rows);
    }

    private static HistorySheetReading Reading((double Day, double Scale, double Ph, int Level, double Volume, string Odour, string Oil, string By) v, string remark)
    {
        var concentration = Percent(v.Scale);
        var (c, p) = (concentration < 6.5 ? Verdict.Warning : Verdict.InRange, v.Ph < 8.7 ? Verdict.Warning : Verdict.InRange);
        return new(
            At(v.Day).AddHours(1).ToString("d MMM HH:mm", CultureInfo.InvariantCulture), v.By,
            [
                new(Text(v.Scale)), new(Text(concentration), c, c == Verdict.Warning ? Direction.Low : Direction.None), new(Text(v.Ph), p, p == Verdict.Warning ? Direction.Low : Direction.None),
                new(v.Level.ToString(CultureInfo.InvariantCulture)), new(Text(v.Volume)), new(v.Odour), new(v.Oil),
            ],
            c == Verdict.Warning || p == Verdict.Warning ? WarningLow : InRange, remark);
    }

    private static HistorySheetTrends Trends()
    {
        var end = At(90);
        var change = At(30);
        var additions = AdditionDays.Select(At).ToList();
        return new(
            Axis(Filled, end, At(86.3)),
            [
                new("Concentration, % v/v",
                    [.. Visits.Select(v => Point(v.Day, Percent(v.Scale), 6.5)), new(At(52.3), 12.4, Verdict.Action, Direction.High, IsSuperseded: true)],
                    additions,
                    [new(At(-90), change, 5.0, 6.0, 6.5, 9.0, 9.5, 10.5), new(change, end.AddDays(90), 5.5, 6.5, 7.0, 9.0, 9.5, 10.5)],
                    Number, new(null, null, 2, 1)),
                new("pH", [.. Visits.Select(v => Point(v.Day, v.Ph, 8.7))], additions, [new(At(-90), end.AddDays(90), 8.4, 8.7, 8.9, 9.4, 9.6, 9.8)], Number, new(null, null, 0.8, 1)),
                new("Volume, L, pump stopped", [.. Visits.Select(v => Point(v.Day, v.Volume, 122))], additions, [new(At(-90), end.AddDays(90), 110, 122, 137, 163)], Number, new(null, null, 20, 0)),
            ]);
    }

    public static TrendTimeAxis Axis(DateTime from, DateTime to, DateTime? now) => new(
        from, to, now, day => day.ToDateTime(TimeOnly.MinValue, DateTimeKind.Utc).AddHours(-1), instant => DateOnly.FromDateTime(instant.AddHours(1)),
        day => day.ToString("d MMM", CultureInfo.InvariantCulture));

    public static string Number(double value, int decimals) => value.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);

    private static TrendPoint Point(double day, double value, double warningLow) =>
        value < warningLow ? new(At(day), value, Verdict.Warning, Direction.Low) : new(At(day), value, Verdict.InRange, Direction.None);

    private static double Percent(double scale) => Math.Round(scale * 1.5, 1, MidpointRounding.AwayFromZero);

    private static DateTime At(double day) => Filled.AddDays(day);

    private static string Text(double value) => value.ToString("0.0", CultureInfo.InvariantCulture);
}
