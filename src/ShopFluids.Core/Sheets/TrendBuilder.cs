using ShopFluids.Calculations.Volumes;
using ShopFluids.Core.Limits;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;

namespace ShopFluids.Core.Sheets;

/// <summary>Makes the charts of a sump for page and sheet, in the units and words of one person.</summary>
public sealed class TrendBuilder(ShopSetup setup, Sump sump, Sentences say)
{
    private ShopFormat Format => say.Format;

    /// <summary>Concentration, pH and volume always; other numbers where there are any.</summary>
    /// <param name="only">Codes of the parameters that are drawn; null for all.</param>
    public HistorySheetTrends Build(SumpHistory history, IReadOnlyList<LimitStretch> stretches, DateTime fromUtc, DateTime toUtc, DateTime? nowUtc, IReadOnlySet<string>? only = null)
    {
        ArgumentNullException.ThrowIfNull(history);
        ArgumentNullException.ThrowIfNull(stretches);
        return new(Axis(fromUtc, toUtc, nowUtc), [.. setup.Parameters.Where(p => only is null || only.Contains(p.Code)).Select(p => Chart(p, history, stretches)).OfType<Trend>()]);
    }

    /// <summary>Null of a parameter that is a word, and of one that is seldom measured and was not.</summary>
    private Trend? Chart(Parameter parameter, SumpHistory history, IReadOnlyList<LimitStretch> stretches)
    {
        if (parameter.Scale == ParameterScale.Words)
        {
            return null;
        }

        var additions = history.Movements.Where(m => m.Kind == MovementKind.Addition).Select(m => m.AtUtc).ToList();
        var points = Points(history, parameter.Code);
        return points.Count == 0 && parameter.Code is not (ParameterCodes.Concentration or ParameterCodes.Ph or ParameterCodes.Level) ? null
            : parameter.Code == ParameterCodes.Level ? Volume(parameter, points, additions, stretches)
            : Plain(parameter, points, additions, stretches);
    }

    private TrendTimeAxis Axis(DateTime fromUtc, DateTime toUtc, DateTime? nowUtc)
    {
        // An axis names the days of the calendar on the wall, from midnight to midnight.
        var days = Format.Calendar with { DayStartHour = 0 };
        return new(fromUtc, toUtc, nowUtc, days.StartOf, days.ShopDayOf, Format.ShortDay);
    }

    private Trend Plain(Parameter parameter, List<TrendPoint> points, List<DateTime> additions, IReadOnlyList<LimitStretch> stretches)
    {
        var convert = Conversion(parameter.Unit);
        return new(
            say.Heading(parameter),
            [.. points.Select(p => p with { Value = convert(p.Value) })],
            additions,
            Limits(stretches, parameter.Code, convert),
            Format.Number,
            new(null, null, SmallestSpan(parameter, convert), Decimals(parameter)));
    }

    // People think in litres, and a level says little where the walls are not straight.
    private Trend Volume(Parameter level, List<TrendPoint> points, List<DateTime> additions, IReadOnlyList<LimitStretch> stretches)
    {
        var geometry = sump.Geometry;
        var litres = Conversion("L");
        double Volume(double mm) => litres(geometry.VolumeLitresAt(Math.Clamp(mm, 0, geometry.BrimMm)));
        return new(
            Format.Say(Texts.Sheet_VolumeHeading, Format.VolumeUnit),
            [.. points.Select(p => p with { Value = Volume(p.Value) })],
            additions,
            Limits(stretches, level.Code, Volume),
            Format.Number,
            new(null, null, litres(geometry.BrimLitres) * 0.15, 0));
    }

    /// <summary>One point for each visit; where two methods were used, titration decides, which comes first.</summary>
    private static List<TrendPoint> Points(SumpHistory history, string parameter) =>
        [.. history.Readings
            .Select(r => (Reading: r, Measured: r.Measurements.FirstOrDefault(m => m.Parameter == parameter)))
            .Where(r => r.Measured is not null)
            .Select(r => new TrendPoint(
                r.Reading.TakenAtUtc, r.Measured?.Value ?? 0, r.Measured?.Verdict ?? Verdict.NotMeasured, r.Measured?.Direction ?? Direction.None, r.Reading.SupersededBy is not null))];

    private static List<TrendLimits> Limits(IReadOnlyList<LimitStretch> stretches, string parameter, Func<double, double> convert)
    {
        double? In(decimal? limit) => limit is { } value ? convert((double)value) : null;
        return [.. stretches
            .Select(s => (Stretch: s, Row: s.Limits.ValueLimits(parameter)))
            .Where(s => s.Row is not null)
            .Select(s => Of(s.Stretch, s.Row))];

        TrendLimits Of(LimitStretch stretch, ParameterLimits? row) =>
            new(stretch.FromUtc, stretch.ToUtc, In(row?.ActionLow), In(row?.WarningLow), In(row?.TargetLow), In(row?.TargetHigh), In(row?.WarningHigh), In(row?.ActionHigh));
    }

    private Func<double, double> Conversion(string canonicalUnit) => (canonicalUnit, Format.Units) switch
    {
        ("L", UnitSystem.UsCustomary) => VolumeUnits.UsGallonsFromLitres,
        ("mm", UnitSystem.UsCustomary) => LengthUnits.InchesFromMillimetres,
        ("°C", UnitSystem.UsCustomary) => TemperatureUnits.FahrenheitFromCelsius,
        _ => value => value,
    };

    private static double SmallestSpan(Parameter parameter, Func<double, double> convert) => parameter.Code switch
    {
        ParameterCodes.Concentration => 2,
        ParameterCodes.Ph => 0.8,
        _ => Math.Max(Math.Abs(convert((double)parameter.Accuracy * 8) - convert(0)), Math.Pow(10, -parameter.Decimals) * 5),
    };

    // Inches need a decimal more than the millimetres they come from.
    private int Decimals(Parameter parameter) => parameter.Unit == "mm" && Format.Units == UnitSystem.UsCustomary ? 2 : parameter.Decimals;
}
