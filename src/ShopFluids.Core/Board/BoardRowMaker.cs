using System.Collections.Concurrent;
using ShopFluids.Core.Care;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Rounds;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Rules.Advice;

namespace ShopFluids.Core.Board;

/// <summary>Makes the board's rows. A row is kept for as long as it would come out the same: until something of its sump is changed, something becomes late, or the shop day ends.</summary>
internal sealed class BoardRowMaker
{
    private volatile OfSetup? _latest;

    public IEnumerable<BoardRow> RowsOf(IEnumerable<Sump> sumps, BoardRows rows, DateTime nowUtc)
    {
        // Another set-up may name, gather or word anything else: no row of the one before is kept, nor that set-up itself.
        var kept = _latest;
        if (kept?.Setup != rows.Setup)
        {
            _latest = kept = new(rows.Setup, new());
        }

        var answers = rows.Answers();
        var skips = StopSkip.LastOfEach(rows.Skips, rows.People.Names);
        var keepAways = KeepAwayQuery.BySump(rows.Doses, nowUtc);
        foreach (var sump in sumps)
        {
            var standing = rows.Standings.GetValueOrDefault(sump.Id);
            var parts = new Parts(rows.Day, standing, rows.Flags.On(sump.Id), rows.Tasks.On(sump.Id), rows.People, answers.LastOn(sump.Id));
            yield return KeptRow(kept, sump, parts, nowUtc) with
            {
                Skip = skips.TryGetValue(sump.Id, out var skip) && skip.HoldsAfter(standing?.LastReadAtUtc) ? skip : null,
                KeepAway = keepAways.GetValueOrDefault(sump.Id),
                Priority = SumpPriority.Of(rows.Setup, sump, standing?.Facts, standing?.VolumeLitres, rows.Prices, nowUtc),
            };
        }
    }

    private static BoardRow KeptRow(OfSetup of, Sump sump, Parts parts, DateTime nowUtc)
    {
        if (of.Rows.TryGetValue(sump.Id, out var kept) && kept.Parts == parts && kept.FromUtc <= nowUtc && nowUtc < kept.UntilUtc)
        {
            return kept.Row;
        }

        var row = Row(of.Setup, sump, parts, nowUtc);
        var dues = parts.Tasks.Select(t => t.DueAtUtc).Concat(parts.Standing?.Facts?.OpenTasks.Select(t => t.DueAt) ?? []);
        of.Rows[sump.Id] = new(parts, nowUtc, dues.Where(d => d > nowUtc).DefaultIfEmpty(DateTime.MaxValue).Min(), row);
        return row;
    }

    private static BoardRow Row(ShopSetup setup, Sump sump, Parts parts, DateTime nowUtc)
    {
        var standing = parts.Standing;
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
            SmelledOfGas = CautionAdvice.WarnsOfGas(standing?.Facts),
            DaysToNext = work.Count == 0 ? null : work[0].DueDay.DayNumber - parts.Day.DayNumber,
        };
    }

    /// <summary>What a row is made of, besides set-up and time: each stays the same object for as long as nothing in it is changed.</summary>
    private readonly record struct Parts(DateOnly Day, Standing? Standing, IReadOnlyList<Flag> Flags, IReadOnlyList<CareTask> Tasks, BoardPeople People, DateTime? AnsweredAt);

    private sealed record Kept(Parts Parts, DateTime FromUtc, DateTime UntilUtc, BoardRow Row);

    private sealed record OfSetup(ShopSetup Setup, ConcurrentDictionary<Guid, Kept> Rows);
}
