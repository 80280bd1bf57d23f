using ShopFluids.Rules.Course;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Registry;

namespace ShopFluids.Rules.SuddenChange;

/// <summary>What becomes of a sudden change that was flagged.</summary>
internal static class NewLevel
{
    /// <summary>
    /// Whether a flag still stands: the reading has not gone more than half of the way back, and the new value was not yet found on enough
    /// later days to be the usual one. A flag whose reading is no longer among the readings does not stand.
    /// </summary>
    /// <param name="reading">The case.</param>
    /// <param name="open">The flag.</param>
    /// <param name="settlesAfterDays">On how many later days.</param>
    public static bool StillStands(RuleCase reading, OpenFlag open, int settlesAfterDays)
    {
        var (course, place) = Flagged(reading, open);
        return course is not null && !IsBack(course, place, open) && LaterDays(course, place, reading) < settlesAfterDays;
    }

    // The reading that raised it, in the course of the method that measured it: by its value and the one before.
    private static (ParameterCourse? Course, int Place) Flagged(RuleCase reading, OpenFlag open)
    {
        var (value, previous) = (open.Numbers.GetValueOrDefault(NumberNames.Value), open.Numbers.GetValueOrDefault(NumberNames.Previous));
        var courses = ParameterCourse.Continued(reading, open.Parameter).Append(ParameterCourse.Of(reading, open.Parameter, method: null));
        foreach (var course in courses)
        {
            for (var i = course.Points.Count - 2; i > 0; i--)
            {
                if (course.Points[i].Value == value && course.Points[i - 1].Value == previous)
                {
                    return (course, i);
                }
            }
        }

        return (null, 0);
    }

    // The middle of what is expected of a value that stays, and the raw value where that is not known.
    private static bool IsBack(ParameterCourse course, int place, OpenFlag open)
    {
        var last = course.Points.Count - 1;
        var flagged = course.Points[place].Value;
        var jump = (double)(flagged - open.Numbers.GetValueOrDefault(NumberNames.Previous) - open.Numbers.GetValueOrDefault(NumberNames.ExpectedChange));
        var stays = course.Expected(place, last) is { } expected ? (expected.Least + expected.Most) / 2 : (double)flagged;
        var moved = (double)course.Points[last].Value - stays;
        return moved * Math.Sign(jump) < -Math.Abs(jump) / 2;
    }

    private static int LaterDays(ParameterCourse course, int place, RuleCase reading)
    {
        var (days, counted) = (0, reading.Input.Calendar.ShopDayOf(course.Points[place].TakenAt));
        for (var i = place + 1; i < course.Points.Count; i++)
        {
            var day = reading.Input.Calendar.ShopDayOf(course.Points[i].TakenAt);
            (days, counted) = day > counted ? (days + 1, day) : (days, counted);
        }

        return days;
    }
}
