using ShopFluids.Rules.Facts;

namespace ShopFluids.Rules.Course;

/// <summary>What several rules follow through one charge, followed once: the courses of its parameters, and what the sump held.</summary>
internal sealed class FollowedCourses(EvaluationInput input)
{
    private readonly Dictionary<(string Parameter, string? Method), ParameterCourse> _courses = [];
    private double[]? _litres;

    /// <summary>What the sump held at each reading, L: those of the history, then the one that is judged; not a number where a reading tells no level inside the sump.</summary>
    public ReadOnlySpan<double> Litres => _litres ??= LitresAtEach();

    /// <summary>A course.</summary>
    /// <param name="parameter">The parameter's code.</param>
    /// <param name="method">How it was measured; null for the method that decides in each reading.</param>
    public ParameterCourse Of(string parameter, string? method)
    {
        if (!_courses.TryGetValue((parameter, method), out var course))
        {
            course = ParameterCourse.Follow(input, Litres, parameter, method);
            _courses.Add((parameter, method), course);
        }

        return course;
    }

    private double[] LitresAtEach()
    {
        var readings = input.History.Readings;
        var litres = new double[readings.Count + 1];
        for (var i = 0; i < readings.Count; i++)
        {
            litres[i] = LitresAt(readings[i]);
        }

        litres[^1] = LitresAt(input.Reading);
        return litres;
    }

    private double LitresAt(ReadingFacts reading)
    {
        var level = (double?)reading.Decisive(ParameterCodes.Level)?.Value;
        return level >= 0 && level <= input.Sump.Geometry.BrimMm ? input.Sump.Geometry.VolumeLitresAt(level.Value) : double.NaN;
    }
}
