using ShopFluids.Core.People.Stations;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Board;

/// <summary>What the wall shows at one time, to be read from four metres.</summary>
/// <param name="AreaId">Null: the worst of all that it shows.</param>
/// <param name="Part">1 and up, where an area has more rows than one screen.</param>
/// <param name="Rows">At most <see cref="WallTurns.RowsShown"/>.</param>
/// <param name="Others">What needs somebody and is not among the rows of this turn.</param>
public sealed record WallTurn(Guid? AreaId, int Part, int Parts, IReadOnlyList<BoardRow> Rows, IReadOnlyList<BoardRow> Others);

/// <summary>A shared tablet on which readings may wait that nobody here has seen.</summary>
/// <param name="Unsent">What it told last.</param>
public sealed record SilentStation(string Name, DateTime SeenAtUtc, int Unsent);

/// <summary>The board for a screen.</summary>
public sealed record WallBoard(ShopBoard Board, IReadOnlyList<WallTurn> Turns, IReadOnlyList<SilentStation> Silent);

/// <summary>Cuts a board into what a screen shows in turn.</summary>
public static class WallTurns
{
    public const int RowsShown = 6;

    /// <summary>First the worst of all, then each area with all that needs somebody there, in as many parts as it takes. One turn where that is everything.</summary>
    /// <param name="areas">In walking order.</param>
    public static IReadOnlyList<WallTurn> Of(IReadOnlyList<BoardRow> rows, IReadOnlyList<Guid> areas)
    {
        ArgumentNullException.ThrowIfNull(rows);
        ArgumentNullException.ThrowIfNull(areas);
        var worst = new WallTurn(null, 1, 1, [.. rows.Take(RowsShown)], [.. rows.Skip(RowsShown)]);
        return rows.Count <= RowsShown ? [worst] : [worst, .. areas.SelectMany(a => OfArea(a, [.. rows.Where(r => r.AreaId == a)]))];
    }

    private static IEnumerable<WallTurn> OfArea(Guid areaId, List<BoardRow> rows)
    {
        var parts = rows.Chunk(RowsShown).ToList();
        return parts.Select((part, n) => new WallTurn(areaId, n + 1, parts.Count, part, [.. rows.Except(part)]));
    }
}

/// <summary>Reads the board for a display.</summary>
public sealed class WallQuery(BoardQuery board, StationsQuery stations, ShopClock clock)
{
    /// <summary>A tablet that is in use tells of itself every minute or so; one that says nothing for so long sleeps, or is out of reach.</summary>
    public static readonly TimeSpan SilentAfter = TimeSpan.FromMinutes(30);

    /// <summary>A tablet that has been away for longer lies in a drawer.</summary>
    public static readonly TimeSpan ForgottenAfter = TimeSpan.FromHours(24);

    /// <param name="areaId">The only area that is shown; null: all.</param>
    public async Task<WallBoard> RunAsync(Guid? areaId, CancellationToken cancellationToken)
    {
        var found = await board.RunAsync(new BoardFilter(AreaId: areaId), cancellationToken);
        return new(found, WallTurns.Of(found.Rows, [.. found.Setup.Areas.OrderBy(a => a.WalkOrder).Select(a => a.Id)]), await SilentAsync(cancellationToken));
    }

    private async Task<List<SilentStation>> SilentAsync(CancellationToken cancellationToken)
    {
        var now = clock.UtcNow;
        return [.. (await stations.AllAsync(cancellationToken))
            .Where(s => s.RevokedAtUtc is null && s.SeenAtUtc is { } seen && now - seen > SilentAfter && (s.Unsent > 0 || now - seen < ForgottenAfter))
            .Select(s => new SilentStation(s.Name, s.SeenAtUtc ?? now, s.Unsent))];
    }
}
