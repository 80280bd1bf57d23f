using ShopFluids.Core.Board;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Pages.Board;

/// <summary>The heading of work that is done in one visit.</summary>
internal static class VisitWord
{
    /// <summary>Null for a single task, which says it all itself.</summary>
    public static string? Of(BoardVisit visit, ShopFormat format, DateTime nowUtc)
    {
        if (visit.Tasks.Count < 2)
        {
            return null;
        }

        var day = format.Calendar.EndOf(visit.Day) is var end && end > nowUtc ? format.Due(end, nowUtc) : Texts.Time_Today;
        return visit.Minutes == 0 ? format.Say(Texts.Board_Visit, day)
            : format.Say(visit.Tasks.All(t => t.Minutes > 0) ? Texts.Board_VisitMinutes : Texts.Board_VisitMinutesOrMore, day, format.Count(visit.Minutes));
    }
}
