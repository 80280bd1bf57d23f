using ShopFluids.Rules.Course;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Registry;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Rules.SuddenChange;

/// <summary>What becomes of a sudden change that was flagged: the flagged value, and the values of its course since.</summary>
internal sealed class NewLevel
{
    private readonly ParameterCourse _course;
    private readonly int _place;
    private readonly OpenFlag _open;

    private NewLevel(ParameterCourse course, int place, OpenFlag open) => (_course, _place, _open) = (course, place, open);

    private int Last => _course.Points.Count - 1;

    private double Limit => (double)_open.Numbers.GetValueOrDefault(NumberNames.ChangeLimit);

    /// <summary>The moment of a reading as a flag carries it.</summary>
    /// <param name="takenAt">When it was taken, UTC.</param>
    public static decimal MomentOf(DateTime takenAt) => (takenAt.Ticks - DateTime.UnixEpoch.Ticks) / TimeSpan.TicksPerMillisecond;

    /// <summary>Finds the reading that raised a flag; null when it is no longer among the readings.</summary>
    /// <param name="reading">The case.</param>
    /// <param name="open">The flag.</param>
    public static NewLevel? Of(RuleCase reading, OpenFlag open)
    {
        foreach (var course in Courses(reading, open.Parameter))
        {
            for (var i = course.Points.Count - 2; i > 0; i--)
            {
                if (HasRaised(course, i, open))
                {
                    return new(course, i, open);
                }
            }
        }

        return null;
    }

    /// <summary>
    /// Whether the flag still stands: the value has not gone more than half of the way back, and what it is now was not yet found on enough
    /// later days to be the usual one.
    /// </summary>
    /// <param name="settlesAfterDays">On how many.</param>
    /// <param name="calendar">The sump's days.</param>
    public bool StillStands(int settlesAfterDays, ShopCalendar calendar) => !IsBack() && DaysAsNow(calendar) < settlesAfterDays;

    /// <summary>Whether the value has gone on to the same side by more than the limit: no second look at the flagged one.</summary>
    public bool HasGoneOn() => Unexplained(_place, Last) * Math.Sign(Jump()) > Limit;

    // The one whose method measured it, the method that decides first.
    private static IEnumerable<ParameterCourse> Courses(RuleCase reading, string parameter)
    {
        foreach (var course in ParameterCourse.Continued(reading, parameter))
        {
            yield return course;
        }

        yield return ParameterCourse.Of(reading, parameter, method: null);
    }

    // By its moment and value: a reading that comes late changes which one was before it. A flag of the rule's first version has no moment.
    private static bool HasRaised(ParameterCourse course, int place, OpenFlag open)
    {
        var point = course.Points[place];
        return point.Value == open.Numbers.GetValueOrDefault(NumberNames.Value)
            && (open.Numbers.TryGetValue(NumberNames.TakenAt, out var moment)
                ? moment == MomentOf(point.TakenAt)
                : course.Points[place - 1].Value == open.Numbers.GetValueOrDefault(NumberNames.Previous));
    }

    private double Jump() => (double)(_course.Points[_place].Value - _open.Numbers.GetValueOrDefault(NumberNames.Previous) - _open.Numbers.GetValueOrDefault(NumberNames.ExpectedChange));

    // The middle of what is expected of a value that stays, and the raw value where that is not known.
    private bool IsBack()
    {
        var flagged = (double)_course.Points[_place].Value;
        var stays = _course.Expected(_place, Last) is { } expected ? (expected.Least + expected.Most) / 2 : flagged;
        var moved = (double)_course.Points[Last].Value - stays;
        return moved * Math.Sign(Jump()) < -Math.Abs(Jump()) / 2;
    }

    // On which of the later days the value was what it is now, as far as the limit tells them apart.
    private int DaysAsNow(ShopCalendar calendar)
    {
        var (days, counted) = (0, calendar.ShopDayOf(_course.Points[_place].TakenAt));
        for (var i = _place + 1; i <= Last; i++)
        {
            var day = calendar.ShopDayOf(_course.Points[i].TakenAt);
            (days, counted) = day > counted && Math.Abs(Unexplained(i, Last)) <= Limit ? (days + 1, day) : (days, counted);
        }

        return days;
    }

    private double Unexplained(int from, int to)
    {
        var (value, raw) = ((double)_course.Points[to].Value, (double)_course.Points[from].Value);
        var (least, most) = _course.Expected(from, to) ?? (raw, raw);

        // Rounded, so that a change of exactly the limit is inside it also in binary.
        return Math.Round(value - Math.Clamp(value, least, most), 9);
    }
}
