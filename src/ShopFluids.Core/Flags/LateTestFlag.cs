using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Rules;
using ShopFluids.Rules.OverdueTest;

namespace ShopFluids.Core.Flags;

/// <summary>The flag for late tests ends with the act after which none is late, not only with a reading.</summary>
internal static class LateTestFlag
{
    /// <summary>Sends the changes so far, and ends the flag if no open test of the sump is late any more.</summary>
    public static async Task EndWhenNoneIsLateAsync(ShopWrite write, Guid sumpId, DateTime nowUtc, Guid? personId, CancellationToken cancellationToken)
    {
        var db = write.Database;
        var flags = await db.Flags.Where(f => f.SumpId == sumpId && f.EndedAtUtc == null && f.Rule == OverdueTestRule.Code).ToListAsync(cancellationToken);
        if (flags.Count == 0)
        {
            return;
        }

        await write.FlushAsync(cancellationToken);
        var open = await db.CareTasks.AsNoTracking().Where(t => t.SumpId == sumpId && t.State == TaskState.Open).ToListAsync(cancellationToken);
        foreach (var ended in RulesService.NoLongerOverdue([.. flags.Select(f => f.ToOpen())], [.. open.Select(t => t.ToOpen())], nowUtc))
        {
            flags.First(f => f.Id == ended.Id).End(FlagEnd.Cleared, nowUtc, personId: personId);
        }
    }
}
