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

    /// <summary>Those of the set whose kind the plan does not have yet.</summary>
    public static IReadOnlyList<AddCareStep> Missing(string sumpTag, IReadOnlyList<CareStep> there, DateOnly today, Func<Guid> newId)
    {
        ArgumentNullException.ThrowIfNull(newId);
        AddCareStep Step(TaskKind kind, IntervalBasis basis, int days, DateOnly first, ClosedDayPolicy closed, int minutes) =>
            new(newId(), sumpTag, kind, basis, days, first, closed, kind == TaskKind.Test ? TestParameters : [], minutes);

        AddCareStep[] usual =
        [
            Step(TaskKind.Test, IntervalBasis.CalendarAnchored, 7, today, ClosedDayPolicy.Earlier, 5),
            Step(TaskKind.Skim, IntervalBasis.FromLastDone, 7, today.AddDays(7), ClosedDayPolicy.Later, 10),
            Step(TaskKind.ChangeFilter, IntervalBasis.FromLastDone, 28, today.AddDays(28), ClosedDayPolicy.Later, 20),
            Step(TaskKind.DrainClean, IntervalBasis.FromLastDone, 365, today.AddDays(365), ClosedDayPolicy.Earlier, 240),
        ];
        return [.. usual.Where(u => there.All(s => s.Kind != u.Kind))];
    }
}
