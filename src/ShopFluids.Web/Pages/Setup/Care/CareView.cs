using ShopFluids.Core.Care;
using ShopFluids.Core.Sumps;
using ShopFluids.Web.Account;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Setup.Sumps;

namespace ShopFluids.Web.Pages.Setup.Care;

/// <summary>The care plan of one sump.</summary>
/// <param name="Sump">Null when the shop has none.</param>
/// <param name="MissingUsual">How many of the usual steps the plan does not have.</param>
public sealed record CareView(DeskWords Words, Sump? Sump, int MissingUsual)
{
    public string Tag => Sump?.Tag ?? "";

    public IReadOnlyList<CareStep> Steps { get; } = Sump is null ? [] : [.. Words.Setup.StepsOf(Sump.Id).OrderBy(s => s.Kind).ThenBy(s => s.Basis).ThenBy(s => s.IntervalDays)];

    /// <summary>Running hours a week of its machine that runs most.</summary>
    public decimal WeeklyHours => Sump is null ? 0 : Words.Setup.WeeklyHoursOf(Sump.Id);

    /// <summary>The interval of a step in days as it is planned now.</summary>
    public int DaysOf(CareStep step)
    {
        ArgumentNullException.ThrowIfNull(step);
        return step.ToFacts(WeeklyHours).IntervalDays;
    }

    public IReadOnlyList<Choice> Sumps => SumpChoices.Sumps(Words.Setup);

    public IReadOnlyList<Choice> Parameters => [.. Words.Setup.Parameters.Select(p => new Choice(p.Code, Words.Sentences.Parameter(p.Code)))];
}
