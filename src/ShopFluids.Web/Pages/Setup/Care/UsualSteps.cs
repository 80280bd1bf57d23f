using ShopFluids.Core.Care;
using ShopFluids.Core.Setup;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;

namespace ShopFluids.Web.Pages.Setup.Care;

/// <summary>
/// A set of steps that a flood-coolant sump of a small shop can begin with: common practice, no source; each can be stopped and
/// replaced.
/// </summary>
public static class UsualSteps
{
    public static IReadOnlyList<string> TestParameters { get; } = [ParameterCodes.Concentration, ParameterCodes.Ph, ParameterCodes.Level];

    /// <summary>What is seen and smelled in passing; tramp oil as surface cover.</summary>
    public static IReadOnlyList<string> LookParameters { get; } = [ParameterCodes.Odour, ParameterCodes.TrampOil];

    /// <summary>Those of the set that the plan does not have yet: a test by what it measures, other work by its kind.</summary>
    public static IReadOnlyList<AddCareStep> Missing(string sumpTag, IReadOnlyList<CareStep> there, DateOnly today, Func<Guid> newId)
    {
        ArgumentNullException.ThrowIfNull(newId);
        AddCareStep Step(TaskKind kind, IntervalBasis basis, int days, DateOnly first, ClosedDayPolicy closed, int minutes, IReadOnlyList<string>? measures = null) =>
            new(newId(), sumpTag, kind, basis, days, first, closed, measures ?? [], minutes);

        AddCareStep[] usual =
        [
            Step(TaskKind.Test, IntervalBasis.CalendarAnchored, 7, today, ClosedDayPolicy.Earlier, 5, TestParameters),

            // Weekly, with the visit above: common practice, no source. DGUV Regel 109-003, Annex 3, asks for a look and a smell each day.
            Step(TaskKind.Test, IntervalBasis.CalendarAnchored, 7, today, ClosedDayPolicy.Earlier, 2, LookParameters),
            Step(TaskKind.Skim, IntervalBasis.FromLastDone, 7, today.AddDays(7), ClosedDayPolicy.Later, 10),
            Step(TaskKind.ChangeFilter, IntervalBasis.FromLastDone, 28, today.AddDays(28), ClosedDayPolicy.Later, 20),
            Step(TaskKind.DrainClean, IntervalBasis.FromLastDone, 365, today.AddDays(365), ClosedDayPolicy.Earlier, 240),
        ];
        return [.. usual.Where(u => !IsThere(u, there))];
    }

    // A plan that measures them in tests of its own needs no more.
    private static bool IsThere(AddCareStep usual, IReadOnlyList<CareStep> there) => usual.Kind == TaskKind.Test
        ? usual.Parameters.All(p => there.Any(s => s.Kind == TaskKind.Test && s.Parameters.Contains(p, StringComparer.Ordinal)))
        : there.Any(s => s.Kind == usual.Kind);
}
