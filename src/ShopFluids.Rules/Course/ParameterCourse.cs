using System.Runtime.InteropServices;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Registry;

namespace ShopFluids.Rules.Course;

/// <summary>One value of a course.</summary>
/// <param name="TakenAt">When, UTC.</param>
/// <param name="Value">The value in the parameter's canonical unit.</param>
/// <param name="Uncertainty">Its expanded uncertainty (k = 2).</param>
/// <param name="Since">What is known to have happened to the mix since the value before; of the first it means nothing.</param>
[StructLayout(LayoutKind.Auto)]
public readonly record struct CoursePoint(DateTime TakenAt, decimal Value, decimal Uncertainty, MixLink Since)
{
    /// <summary>To how many decimals the parameter is told, at least.</summary>
    public int Decimals { get; init; }
}

/// <summary>The values of one parameter by one method, oldest first; the last is that of the reading that is judged.</summary>
public sealed class ParameterCourse
{
    private readonly List<CoursePoint> _points;

    private ParameterCourse(string parameter, List<CoursePoint> points) => (Parameter, _points) = (parameter, points);

    /// <summary>The parameter's code.</summary>
    public string Parameter { get; }

    /// <summary>The values.</summary>
    public IReadOnlyList<CoursePoint> Points => _points;

    /// <summary>The same, without a copy of each: the rules go along them with every reading.</summary>
    internal ReadOnlySpan<CoursePoint> Span => CollectionsMarshal.AsSpan(_points);

    /// <summary>
    /// The courses that a reading continues, the method that decides first: one for each method by which it measured the parameter. Each is a
    /// series of its own, because methods differ by more than their noise.
    /// </summary>
    /// <param name="reading">The case.</param>
    /// <param name="parameter">The parameter's code.</param>
    public static IEnumerable<ParameterCourse> Continued(RuleCase reading, string parameter)
    {
        ArgumentNullException.ThrowIfNull(reading);
        if (reading.Input.Reading.Decisive(parameter) is not { } decisive)
        {
            yield break;
        }

        yield return Of(reading, parameter, decisive.Method);
        foreach (var other in reading.Input.Reading.Measurements)
        {
            if (other.Parameter == parameter && other.Method != decisive.Method)
            {
                yield return Of(reading, parameter, other.Method);
            }
        }
    }

    /// <summary>A course.</summary>
    /// <param name="reading">The case.</param>
    /// <param name="parameter">The parameter's code.</param>
    /// <param name="method">How it was measured; null for the method that decides in each reading.</param>
    public static ParameterCourse Of(RuleCase reading, string parameter, string? method)
    {
        ArgumentNullException.ThrowIfNull(reading);
        return reading.Courses.Of(parameter, method);
    }

    /// <summary>
    /// What the value at one place should be by what is known, reckoned from the value at an earlier place: for concentration from what the
    /// movements and the levels explain, otherwise the earlier value itself.
    /// </summary>
    /// <param name="from">The earlier place.</param>
    /// <param name="to">The later place.</param>
    /// <returns>The least and the most; null where something was moved and nobody knows in how much fluid.</returns>
    public (double Least, double Most)? Expected(int from, int to)
    {
        var points = Span;
        var (least, most) = ((double)points[from].Value, (double)points[from].Value);
        if (Parameter != ParameterCodes.Concentration)
        {
            return (least, most);
        }

        for (var i = from + 1; i <= to; i++)
        {
            var link = points[i].Since;
            if (!link.IsKnown)
            {
                return null;
            }

            (least, most) = (link.Least(least), link.Most(most));
        }

        return (least, most);
    }

    /// <summary>Follows a course through the charge.</summary>
    /// <param name="input">What the evaluation may look at.</param>
    /// <param name="litres">What the sump held at each reading, as <see cref="FollowedCourses.Litres"/> tells it.</param>
    /// <param name="parameter">The parameter's code.</param>
    /// <param name="method">How it was measured; null for the method that decides in each reading.</param>
    internal static ParameterCourse Follow(EvaluationInput input, ReadOnlySpan<double> litres, string parameter, string? method)
    {
        var walk = new MixWalk(input.Sump, input.History.Movements);
        var readings = input.History.Readings;
        var points = new List<CoursePoint>(litres.Length);
        for (var i = 0; i < readings.Count; i++)
        {
            Follow(walk, readings[i], litres[i], parameter, method, points);
        }

        Follow(walk, input.Reading, litres[^1], parameter, method, points);
        return new(parameter, points);
    }

    private static void Follow(MixWalk walk, ReadingFacts reading, double litres, string parameter, string? method, List<CoursePoint> points)
    {
        walk.GoTo(reading, litres);
        var found = method is null ? reading.Decisive(parameter) : reading.By(parameter, method);
        if (found is not null)
        {
            points.Add(new(reading.TakenAt, found.Value, found.Uncertainty, walk.Count(reading)) { Decimals = found.Decimals });
        }
    }
}
