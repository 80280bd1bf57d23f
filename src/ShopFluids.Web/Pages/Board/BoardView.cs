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
            var closure = Board.NextClosure is { } closed ? $" {Format.Say(Texts.Board_NextClosure, Format.Days(closed.First, closed.Last))}" : "";
            return need + ShopDay + closure;
        }
    }

    // After midnight the date above is not the day that the work goes by.
    private string ShopDay
    {
        get
        {
            var day = Board.Setup.Calendar.ShopDayOf(Board.AtUtc);
            return day == DateOnly.FromDateTime(Format.ToShopTime(Board.AtUtc)) ? "" : $" {Format.Say(Texts.Board_ShopDay, Format.LongDay(day), Format.Time(Board.Setup.Calendar.EndOf(day)))}";
        }
    }

    public string NextIn(BoardRow row) => row.DaysToNext switch
    {
        null => Texts.Board_NothingPlanned,
        <= 0 => Texts.Time_Today,
        { } days => Format.Say(Texts.Board_InDays, Format.Count(days)),
    };
}
