using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Rounds;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Shop.Round;

public partial class RoundDocument
{
    // Beyond it the strip's boxes are too narrow to be told apart.
    private const int LongestStrip = 24;

    [Parameter, EditorRequired] public required ShopVisit Visit { get; set; }

    [Parameter, EditorRequired] public required RoundPage Page { get; set; }

    [Parameter] public bool ShowsAll { get; set; }

    private int Total => Page.Read.Count + Page.Due.Count + Page.Skipped.Count;

    private string Subtitle => string.Join(" · ", Areas.Prepend(Visit.Format.Weekday(Page.NowUtc)));

    private IEnumerable<string> Areas => (ShowsAll ? Page.All : [.. Page.Due, .. Page.Skipped, .. Page.Read]).Select(s => s.Place.AreaName).Distinct(StringComparer.Ordinal).Take(3);

    private string Progress => Page.Skipped.Count == 0
        ? Say(Texts.Round_OfRead, Visit.Format.Count(Total))
        : Say(Texts.Round_SkippedCount, Visit.Format.Count(Total), Visit.Format.Count(Page.Skipped.Count));

    private string NothingDueText => Page.Skipped.Count == 1 ? Texts.Round_OneSkippedText
        : Page.Skipped.Count > 0 ? Say(Texts.Round_AllSkippedText, Visit.Format.Count(Page.Skipped.Count))
        : Page.Later is { DueAtUtc: { } due } later
        ? Say(Texts.Round_NothingDueUntil, later.Place.Tag, Visit.Format.Due(due, Page.NowUtc))
        : Texts.Round_NothingPlanned;

    private string NotRead(RoundStop stop) => stop.Tests.IsPartlyRead
        ? Say(Texts.Round_StillToDo, string.Join(", ", stop.Tests.Remaining.Select(Visit.Sentences.Parameter)))
        : IsReadToday(stop) && stop.Tests.Remaining.Count > 0 ? Say(Texts.Round_Again, string.Join(", ", stop.Tests.Remaining.Select(Visit.Sentences.Parameter)))
        : Texts.Round_NotReadYet;

    private bool IsReadToday(RoundStop stop) => stop.LastReadAtUtc is { } read && Visit.Format.Calendar.ShopDayOf(read) == Visit.Format.Calendar.ShopDayOf(Page.NowUtc);

    private string DrainingWords(RoundDraining draining) => draining.IsBegun ? Texts.Round_DrainBegun
        : draining.DueAtUtc is { } due ? Visit.Format.Late(due, Page.NowUtc) ?? Visit.Format.Due(due, Page.NowUtc)
        : "";

    private string Passed(RoundStop stop) => stop.Skip is { } skip ? Say(Texts.Round_Skipped, Visit.Format.Time(skip.AtUtc), SkipSentences.Why(skip.Reason, skip.Words)) : "";

    private static string Word(RoundStop stop) => Sentences.Verdict(stop.Verdict, stop.Direction);

    private string Say(string pattern, params object?[] values) => Visit.Format.Say(pattern, values);
}
