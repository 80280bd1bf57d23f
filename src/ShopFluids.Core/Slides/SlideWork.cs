using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Flags;
using ShopFluids.Rules.UnreadSlide;

namespace ShopFluids.Core.Slides;

/// <summary>The work of reading a slide, and the flag for one that nobody read, end with the slide.</summary>
internal static class SlideWork
{
    /// <summary>Ends the task of a slide that was read or discarded.</summary>
    public static async Task EndAsync(ShopWrite write, Slide slide, DateTime nowUtc, Guid? personId, CancellationToken cancellationToken)
    {
        var cause = UnreadSlideRule.CauseOf(slide.Id);
        var task = await write.Database.CareTasks.FirstOrDefaultAsync(t => t.SumpId == slide.SumpId && t.Cause == cause && t.State == TaskState.Open, cancellationToken);
        task?.End(slide.EndedHow == SlideEnd.Read ? TaskState.Done : TaskState.Withdrawn, nowUtc, personId, slide.ReadingId);
        await EndFlagAsync(write, slide.SumpId, nowUtc, personId, cancellationToken);
    }

    /// <summary>A slide whose task a person has skipped is discarded, for the same reason.</summary>
    public static async Task DiscardOfTaskAsync(ShopWrite write, CareTask task, DateTime nowUtc, Guid? personId, CancellationToken cancellationToken)
    {
        var open = await write.Database.Slides.Where(s => s.SumpId == task.SumpId && s.EndedAtUtc == null).ToListAsync(cancellationToken);
        open.Find(s => UnreadSlideRule.CauseOf(s.Id) == task.Cause)?.Discard(nowUtc, personId, task.EndReason ?? "");
        await EndFlagAsync(write, task.SumpId, nowUtc, personId, cancellationToken);
    }

    private static async Task EndFlagAsync(ShopWrite write, Guid sumpId, DateTime nowUtc, Guid? personId, CancellationToken cancellationToken)
    {
        var db = write.Database;
        var flag = await db.Flags.FirstOrDefaultAsync(f => f.SumpId == sumpId && f.EndedAtUtc == null && f.Rule == UnreadSlideRule.RuleCode, cancellationToken);
        if (flag is null)
        {
            return;
        }

        await write.FlushAsync(cancellationToken);
        var open = await db.CareTasks.AsNoTracking().Where(t => t.SumpId == sumpId && t.State == TaskState.Open).ToListAsync(cancellationToken);
        if (!open.Exists(t => UnreadSlideRule.IsLate(t.ToOpen(), nowUtc)))
        {
            flag.End(FlagEnd.Cleared, nowUtc, personId: personId);
        }
    }
}
