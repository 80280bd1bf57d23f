using System.Collections.Concurrent;
using ShopFluids.Core.Care;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Rounds;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;

namespace ShopFluids.Core.Board;

/// <summary>Makes the board's rows. A row is kept for as long as it would come out the same: until something of its sump is changed, something becomes late, or the shop day ends.</summary>
internal sealed class BoardRowMaker
{
    private readonly ConcurrentDictionary<Guid, Kept> _kept = new();

    public IEnumerable<BoardRow> RowsOf(IEnumerable<Sump> sumps, BoardRows rows, DateTime nowUtc)
    {
        var answers = rows.Answers();
        var skips = StopSkip.LastOfEach(rows.Skips, rows.People.Names);
        var keepAways = KeepAwayQuery.BySump(rows.Doses, nowUtc);
        return sumps.Select(s => KeptRow(s, new(rows.Setup, rows.Day, rows.Standings.GetValueOrDefault(s.Id), rows.Flags.On(s.Id), rows.Tasks.On(s.Id), rows.People, answers.LastOn(s.Id)), nowUtc) with
        {
            Skip = skips.TryGetValue(s.Id, out var skip) && skip.HoldsAfter(rows.Standings.GetValueOrDefault(s.Id)?.LastReadAtUtc) ? skip : null,
            KeepAway = keepAways.GetValueOrDefault(s.Id),
            Priority = SumpPriority.Of(rows.Setup, s, rows.Standings.GetValueOrDefault(s.Id)?.Facts, rows.Standings.GetValueOrDefault(s.Id)?.VolumeLitres, rows.Prices, nowUtc),
        });
    }

    private BoardRow KeptRow(Sump sump, Parts parts, DateTime nowUtc)
    {
        if (_kept.TryGetValue(sump.Id, out var kept) && kept.Parts == parts && kept.FromUtc <= nowUtc && nowUtc < kept.UntilUtc)
        {
            return kept.Row;
        }

        var row = Row(sump, parts, nowUtc);
        var dues = parts.Tasks.Select(t => t.DueAtUtc).Concat(parts.Standing?.Facts?.OpenTasks.Select(t => t.DueAt) ?? []);
        _kept[sump.Id] = new(parts, nowUtc, dues.Where(d => d > nowUtc).DefaultIfEmpty(DateTime.MaxValue).Min(), row);
        return row;
    }

    private static BoardRow Row(Sump sump, Parts parts, DateTime nowUtc)
    {
        var (setup, standing) = (parts.Setup, parts.Standing);
        var work = OpenWorkQuery.Tasks(parts.Tasks, parts.People.ById, setup, sump.Id, nowUtc);
        return new(
            sump.Id,
            sump.Tag,
            sump.AreaId,
            [.. setup.MachinesOf(sump).Select(m => new BoardMachine(m.Tag, m.Name))],
            SumpStanding.Of(standing?.ChargeId is null ? null : standing.Facts, nowUtc),
            setup.OpenCharge(sump.Id)?.FilledAtUtc,
            standing?.LastReadAtUtc,
            OpenWorkQuery.Flags(parts.Flags, standing?.Facts, parts.AnsweredAt),
            work)
        {
            DaysToNext = work.Count == 0 ? null : work[0].DueDay.DayNumber - parts.Day.DayNumber,
        };
    }

    /// <summary>What a row is made of, besides the time: each stays the same object for as long as nothing in it is changed.</summary>
    private readonly record struct Parts(
        ShopSetup Setup, DateOnly Day, Standing? Standing, IReadOnlyList<Flag> Flags, IReadOnlyList<CareTask> Tasks, BoardPeople People, DateTime? AnsweredAt);

    private sealed record Kept(Parts Parts, DateTime FromUtc, DateTime UntilUtc, BoardRow Row);
}
