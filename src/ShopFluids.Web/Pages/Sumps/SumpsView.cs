using ShopFluids.Core.Board;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Board;

namespace ShopFluids.Web.Pages.Sumps;

/// <summary>The list of sumps as it was read, with the words of the person who looks at it.</summary>
internal sealed record SumpsView(ShopBoard Board, DeskWords Words)
{
    public ShopFormat Format => Words.Format;

    public IReadOnlyList<BoardRow> Rows { get; } = InWalkingOrder(Board);

    public IEnumerable<BoardRow> Found(string? text)
    {
        var wanted = (text ?? "").Trim();
        return Rows.Where(r => wanted.Length == 0
            || r.Tag.Contains(wanted, StringComparison.OrdinalIgnoreCase)
            || r.Machines.Any(m => m.Tag.Contains(wanted, StringComparison.OrdinalIgnoreCase) || m.Name.Contains(wanted, StringComparison.OrdinalIgnoreCase)));
    }

    public string Served(BoardRow row) => Format.Served(row);

    public string FluidOf(BoardRow row) =>
        Board.Setup.OpenCharge(row.SumpId) is { } charge ? Board.Setup.Fluid(charge.FluidId).Name : Texts.Board_StandsEmpty;

    public string NextWork(BoardRow row) => row.Tasks.Count == 0
        ? Texts.Board_NothingPlanned
        : $"{TaskWord.Of(row.Tasks[0].Kind)}, {Format.Due(row.Tasks[0].DueAtUtc, Board.AtUtc)}";

    private static List<BoardRow> InWalkingOrder(ShopBoard board)
    {
        var order = board.Setup.Sumps.Select((s, n) => (s.Id, n)).ToDictionary(s => s.Id, s => s.n);
        return [.. board.Rows.Concat(board.Quiet).OrderBy(r => order[r.SumpId])];
    }
}
