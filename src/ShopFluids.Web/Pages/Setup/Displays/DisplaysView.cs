using ShopFluids.Core.Displays;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Setup.Displays;

/// <summary>The displays in words.</summary>
public sealed record DisplaysView(DeskWords Words, IReadOnlyList<DisplayRow> Rows)
{
    public IReadOnlyList<Choice> Areas { get; } = [.. Words.Setup.Areas.OrderBy(a => a.WalkOrder).Select(a => new Choice(a.Id.ToString(), a.Name))];

    public string Shows(DisplayRow row)
    {
        ArgumentNullException.ThrowIfNull(row);
        return row.AreaId is { } area ? Words.Setup.Area(area).Name : Texts.Setup_DisplayAllAreas;
    }

    public string State(DisplayRow row)
    {
        ArgumentNullException.ThrowIfNull(row);
        return row.RevokedAtUtc is { } revoked ? Words.Format.Say(Texts.Setup_StationRevoked, Words.Format.DayAndTime(revoked)) : Words.Format.Say(Texts.Setup_StationEnrolled, Words.Format.DayAndTime(row.MadeAtUtc));
    }

    public static string ThemeOf(DisplayRow row)
    {
        ArgumentNullException.ThrowIfNull(row);
        return AccountChoices.Themes.FirstOrDefault(t => t.Value == row.Theme)?.Text ?? row.Theme;
    }
}
