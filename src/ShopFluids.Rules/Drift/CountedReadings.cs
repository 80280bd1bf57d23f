using ShopFluids.Calculations.Statistics;
using ShopFluids.Rules.Course;

namespace ShopFluids.Rules.Drift;

/// <summary>Which values of a course tell of its trend.</summary>
/// <param name="Series">The values over the days since the first of them; the value judged is the last.</param>
/// <param name="LastDay">The day of the value judged.</param>
/// <param name="SpanDays">How many days before it the first of them was taken.</param>
/// <param name="BeganAnew">Whether earlier values are left out because the mix was corrected or exchanged after them.</param>
internal sealed record CountedReadings(Series Series, double LastDay, double SpanDays, bool BeganAnew)
{
    /// <summary>
    /// The values since the last large correction or exchange, the latest of them up to a number. Where something was put in meanwhile, only those
    /// right before an addition, and the one judged: what evaporates between top-ups raises whatever is dissolved, and each top-up takes it back,
    /// which is no trend. pH does not follow that saw.
    /// </summary>
    /// <param name="course">The course.</param>
    /// <param name="settings">The rule's numbers.</param>
    public static CountedReadings Of(ParameterCourse course, DriftSettings settings)
    {
        var points = course.Span;
        var (first, isSaw) = (points.Length - 1, false);
        while (first > 0 && !IsCorrected(course, first, settings))
        {
            isSaw |= points[first].Since.Exchanged > 0;
            first--;
        }

        var topsOnly = isSaw && course.Parameter != ParameterCodes.Ph;
        var (times, values) = (new List<double>(DriftSettings.MostReadings), new List<double>(DriftSettings.MostReadings));
        for (var i = points.Length - 1; i >= first && !IsEnough(times, settings); i--)
        {
            if (i == points.Length - 1 || !topsOnly || points[i + 1].Since.Exchanged > 0)
            {
                times.Add((points[i].TakenAt - points[first].TakenAt).TotalDays);
                values.Add((double)points[i].Value);
            }
        }

        return new(Series.From(times, values), times[0], times[0] - times[^1], first > 0);
    }

    // Latest first.
    private static bool IsEnough(List<double> times, DriftSettings settings) =>
        times.Count >= DriftSettings.MostReadings || (times.Count >= settings.UsualReadings && times[0] - times[^1] >= settings.UsualDays);

    private static bool IsCorrected(ParameterCourse course, int place, DriftSettings settings)
    {
        var link = course.Span[place].Since;
        if (link.Exchanged > settings.LargeExchange)
        {
            return true;
        }

        var before = (double)course.Span[place - 1].Value;
        return course.Parameter == ParameterCodes.Concentration
            && course.Expected(place - 1, place) is { } expected
            && Math.Abs(Math.Clamp(before, expected.Least, expected.Most) - before) > settings.LargeCorrection * before;
    }
}
