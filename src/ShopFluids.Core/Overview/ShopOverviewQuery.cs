using ShopFluids.Core.Board;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Stores;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Overview;

/// <summary>Reads the overview: the board for where sumps stand, and every movement of the last twelve months.</summary>
public sealed class ShopOverviewQuery(BoardQuery board, ShopDatabase database, ShopClock clock)
{
    /// <summary>How many days back it is told where the fluid goes.</summary>
    public const int UseDays = 90;

    private const int DaysOfWeek = 7;
    private const int DaysOfMonth = 28;

    public async Task<ShopOverview> RunAsync(CancellationToken cancellationToken)
    {
        var found = await board.RunAsync(new BoardFilter(), cancellationToken);
        var setup = found.Setup;
        await using var db = await database.ReadAsync(cancellationToken);
        var now = clock.UtcNow;
        var today = setup.Calendar.ShopDayOf(now);
        var firstMonth = new DateOnly(today.Year, today.Month, 1).AddMonths(1 - StoresQuery.Months);
        var months = await FluidUse.OfAsync(db, setup, null, setup.Calendar.StartOf(firstMonth), now, cancellationToken);
        var moves = await FluidMove.OfAsync(db, null, now.AddDays(-UseDays), now, cancellationToken);
        return new(
            now,
            setup,
            Areas(found, today),
            [.. Enumerable.Range(0, StoresQuery.Months).Select(firstMonth.AddMonths).Select(m => Total(m, months.Where(u => u.Month == m).ToList()))],
            [.. moves.GroupBy(m => m.SumpId).Select(g => Use(setup.FindSump(g.Key)?.Tag ?? "", [.. g])).OrderByDescending(u => u.PutInLitres).ThenBy(u => u.Tag, StringComparer.Ordinal)]);
    }

    private static List<OverviewArea> Areas(ShopBoard board, DateOnly today)
    {
        var rows = board.Rows.Concat(board.Quiet).ToLookup(r => r.AreaId);
        return [.. board.Setup.Areas.OrderBy(a => a.WalkOrder).Where(a => rows.Contains(a.Id)).Select(a => new OverviewArea(
            a.Id,
            a.Name,
            [.. rows[a.Id].OrderBy(r => r.Standing.State).ThenBy(r => r.LastReadAtUtc).ThenBy(r => r.Tag, StringComparer.Ordinal)
                .Select(r => new OverviewSump(r.Tag, r.Standing, r.LastReadAtUtc, AgeOf(r.LastReadAtUtc, board.Setup, today)))]))];
    }

    private static ReadingAge AgeOf(DateTime? readAtUtc, ShopSetup setup, DateOnly today) =>
        readAtUtc is not { } read ? ReadingAge.Never : (today.DayNumber - setup.Calendar.ShopDayOf(read).DayNumber) switch
        {
            <= 0 => ReadingAge.Today,
            <= DaysOfWeek => ReadingAge.Week,
            <= DaysOfMonth => ReadingAge.Month,
            _ => ReadingAge.Older,
        };

    private static MonthTotal Total(DateOnly month, List<MonthUse> uses) => new(
        month,
        uses.Sum(u => u.FillLitres),
        uses.Sum(u => u.AddedLitres),
        uses.Sum(u => u.WaterLitres),
        uses.Sum(u => u.RemovedLitres),
        uses.Sum(u => u.Cost),
        uses.Sum(u => u.UnpricedLitres));

    private static SumpUse Use(string tag, List<FluidMove> moves) => new(
        tag,
        moves.Where(m => m.IsFill).Sum(m => m.WaterLitres + m.ConcentrateLitres),
        moves.Where(m => m.Kind == MovementKind.Addition).Sum(m => m.WaterLitres + m.ConcentrateLitres),
        moves.Where(m => m.Kind == MovementKind.Drain).Sum(m => m.RemovedLitres),
        moves.Where(m => m.Kind == MovementKind.Removal).Sum(m => m.RemovedLitres),
        moves.Sum(m => m.ConcentrateLitres),
        moves.Sum(m => m.Cost),
        moves.Sum(m => m.UnpricedLitres));
}
