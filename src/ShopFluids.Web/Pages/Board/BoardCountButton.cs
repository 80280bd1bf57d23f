using ShopFluids.Core.Board;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Pages.Board;

/// <summary>A count at the head of the board that filters by what it counts.</summary>
internal sealed record BoardCountButton(SumpState State, string Mark, int Count, string Word)
{
    public static IReadOnlyList<BoardCountButton> All(BoardCounts counts) =>
    [
        new(SumpState.Action, "act", counts.Action, Texts.Verdict_Action),
        new(SumpState.Warning, "warn-hi", counts.Warning, Texts.Verdict_Warning),
        new(SumpState.Overdue, "late", counts.TasksLate, Texts.Board_OverdueTasks),
        new(SumpState.NotMeasured, "none", counts.NotMeasured, Texts.Verdict_NotMeasured),
        new(SumpState.InRange, "ok", counts.InRange, Texts.Verdict_InRange),
    ];
}
