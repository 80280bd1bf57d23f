using ShopFluids.Core.Board;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Board;

/// <summary>A board as it was read, with the words of the person who looks at it.</summary>
internal sealed record BoardView(ShopBoard Board, DeskWords Words)
{
    public ShopFormat Format => Words.Format;

    /// <summary>How many need somebody, and when the shop is closed next.</summary>
    public string Lead
    {
        get
        {
            var need = Board.Counts.NeedSomeoneToday switch
            {
                0 => Texts.Board_NeedNobody,
                1 => Texts.Board_NeedOne,
                var count => Format.Say(Texts.Board_NeedMany, Format.Count(count)),
            };
            return Board.NextClosure is { } closed ? $"{need} {Format.Say(Texts.Board_NextClosure, Format.Days(closed.First, closed.Last))}" : need;
        }
    }

    public string NextIn(BoardRow row) => row.DaysToNext switch
    {
        null => Texts.Board_NothingPlanned,
        <= 0 => Texts.Time_Today,
        { } days => Format.Say(Texts.Board_InDays, Format.Count(days)),
    };
}
