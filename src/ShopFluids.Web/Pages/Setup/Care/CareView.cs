using System.Globalization;
using ShopFluids.Core.Care;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Setup.Sumps;

namespace ShopFluids.Web.Pages.Setup.Care;

/// <summary>The care plan of one sump.</summary>
/// <param name="Sump">Null when the shop has none.</param>
public sealed record CareView(DeskWords Words, Sump? Sump)
{
    public string Tag => Sump?.Tag ?? "";

    public IReadOnlyList<CareStep> Steps { get; } = Sump is null ? [] : [.. Words.Setup.StepsOf(Sump.Id).OrderBy(s => s.Kind).ThenBy(s => s.Basis).ThenBy(s => s.IntervalDays)];

    /// <summary>Running hours a week of its machine that runs most.</summary>
    public decimal WeeklyHours => Sump is null ? 0 : Words.Setup.WeeklyHoursOf(Sump.Id);

    /// <summary>The interval of a step in days as it is planned now.</summary>
    public int DaysOf(CareStep step)
    {
        ArgumentNullException.ThrowIfNull(step);
        return step.ToFacts(WeeklyHours).IntervalDays;
    }

    public IReadOnlyList<Choice> Sumps => SumpChoices.Sumps(Words.Setup);

    /// <summary>At which moment of its day a step is due: the end of the shop day, or of one of its shifts.</summary>
    public IReadOnlyList<Choice> Shifts =>
    [
        new("0", Texts.Setup_EndOfDay),
        .. Words.Setup.Calendar.ShiftEnds.Select((end, i) => new Choice((i + 1).ToString(CultureInfo.InvariantCulture), ShiftWord(i + 1, end))),
    ];

    /// <summary>The shift of a step in words; empty for the end of the shop day.</summary>
    public string ShiftOf(CareStep step)
    {
        ArgumentNullException.ThrowIfNull(step);
        return step.Shift is { } shift && shift <= Words.Setup.Calendar.ShiftEnds.Count ? ShiftWord(shift, Words.Setup.Calendar.ShiftEnds[shift - 1]) : "";
    }

    private string ShiftWord(int shift, TimeOnly end) => Words.Format.Say(Texts.Setup_EndOfShift, Words.Format.Count(shift), end.ToString("HH:mm", Words.Format.Culture));

    public IReadOnlyList<Choice> Parameters => [.. Words.Setup.Parameters.Select(p => new Choice(p.Code, Words.Sentences.Parameter(p.Code)))];
}
