using ShopFluids.Core.Board;
using ShopFluids.Core.Database;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;

namespace ShopFluids.Core.Sheets.OverdueWork;

/// <summary>Puts what the board shows as late and due today on paper, in the shop's own culture and units.</summary>
public sealed class OverdueSheetQuery(ShopDatabase database, BoardQuery board)
{
    /// <param name="isByPerson">Sorted by who does it; by area otherwise.</param>
    /// <param name="printedBy">The person's name.</param>
    /// <param name="cancellationToken">Stops the reading.</param>
    public async Task<OverdueSheet> RunAsync(bool isByPerson, string printedBy, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        return await RecordStand.ReadAsync(
            db,
            async head =>
            {
                var now = await board.RunAsync(new BoardFilter(), cancellationToken);
                var say = new Sentences(now.Setup.FormatFor(), now.Setup);
                var frame = SheetFrame.Of(now.Setup, Texts.OverdueSheet_Tag, Texts.OverdueSheet_Title, say.Format.LongDay(now.AtUtc), now.AtUtc, printedBy, head);
                return new OverdueSheetMaker(now, say, isByPerson).Make(frame);
            },
            cancellationToken);
    }
}

internal sealed class OverdueSheetMaker(ShopBoard board, Sentences say, bool isByPerson)
{
    private readonly DateOnly _today = board.Setup.Calendar.ShopDayOf(board.AtUtc);

    private ShopFormat Format => say.Format;

    public OverdueSheet Make(SheetFrame frame)
    {
        // Quiet sumps have nothing late, but may have work of today.
        var rows = board.Rows.Concat(board.Quiet).ToList();
        var work = rows.SelectMany(r => r.Tasks.Where(t => t.IsLate || t.DueDay <= _today).Select(t => (Row: r, Task: t))).ToList();
        var stores = board.ShopFlags.Where(f => f.DueAtUtc <= board.Setup.Calendar.EndOf(_today)).ToList();
        var late = work.Count(w => w.Task.IsLate) + stores.Count(f => f.DueAtUtc <= board.AtUtc);
        return new(
            frame,
            isByPerson ? Texts.OverdueSheet_ByPerson : Texts.OverdueSheet_ByArea,
            Format.Say(Texts.OverdueSheet_Counts, Format.Count(late), Format.Count(work.Count + stores.Count - late)),
            isByPerson,
            isByPerson ? ByPerson(rows, work) : ByArea(rows, work),
            stores.ConvertAll(f => new OverdueStore(say.ShopFlag(f), Due(f.DueAtUtc))));
    }

    private List<OverdueGroup> ByArea(List<BoardRow> rows, List<(BoardRow Row, BoardTask Task)> work) =>
        [.. board.Setup.Areas.Select(a => Group(a.Name, work.Where(w => w.Row.AreaId == a.Id), rows.Where(r => r.AreaId == a.Id))).Where(HasSomething)];

    // A flag goes with whoever has work at its sump; those of other sumps wait for somebody, with what nobody was given.
    private List<OverdueGroup> ByPerson(List<BoardRow> rows, List<(BoardRow Row, BoardTask Task)> work)
    {
        var people = work.Select(w => w.Task.Who).OfType<BoardPerson>().DistinctBy(p => p.Id).OrderBy(p => p.Name, StringComparer.OrdinalIgnoreCase).ThenBy(p => p.Id);
        var given = work.Where(w => w.Task.Who is not null).Select(w => w.Row.SumpId).ToHashSet();
        var groups = people.Select(p => Of(p.Name, [.. work.Where(w => w.Task.Who?.Id == p.Id)])).ToList();
        groups.Add(Group(Texts.OverdueSheet_Nobody, work.Where(w => w.Task.Who is null), rows.Where(r => !given.Contains(r.SumpId))));
        return groups.FindAll(HasSomething);

        OverdueGroup Of(string name, List<(BoardRow Row, BoardTask Task)> own) => Group(name, own, own.Select(w => w.Row).Distinct());
    }

    private static bool HasSomething(OverdueGroup group) => group.Tasks.Count + group.Flags.Count > 0;

    private OverdueGroup Group(string name, IEnumerable<(BoardRow Row, BoardTask Task)> work, IEnumerable<BoardRow> rows) => new(
        name,
        [.. work.OrderBy(w => w.Task.DueAtUtc).ThenBy(w => w.Row.Tag, StringComparer.Ordinal).ThenBy(w => w.Task.Kind).Select(w => new OverdueTask(
            w.Row.Tag,
            string.Join(", ", w.Row.Machines.Select(m => $"{m.Tag} {m.Name}")),
            say.Task(w.Task.Kind, w.Task.Cause, w.Task.Recipe),
            Due(w.Task.DueAtUtc),
            isByPerson ? board.Setup.Area(w.Row.AreaId).Name : w.Task.Who?.Name ?? Texts.Board_Nobody))],
        [.. rows.SelectMany(r => r.Flags.Select(f => (r.Tag, Flag: f))).OrderByDescending(f => f.Flag.Severity).ThenBy(f => f.Flag.RaisedAtUtc).ThenBy(f => f.Tag, StringComparer.Ordinal)
            .Select(f => new OverdueFlag(
                f.Tag,
                say.Worded(f.Flag.Parameter, f.Flag.Severity, f.Flag.Direction),
                say.FlagNow(f.Flag),
                Format.Moment(f.Flag.RaisedAtUtc, board.AtUtc)))]);

    private SheetVerdict Due(DateTime dueUtc) => new(Verdict.NotMeasured, Direction.None, Format.Due(dueUtc, board.AtUtc), IsLate: dueUtc <= board.AtUtc);
}
