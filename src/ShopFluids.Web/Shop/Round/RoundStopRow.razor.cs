using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Rounds;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Shop.Round;

public partial class RoundStopRow
{
    [Parameter, EditorRequired] public required ShopVisit Visit { get; set; }

    [Parameter, EditorRequired] public required RoundStop Stop { get; set; }

    [Parameter, EditorRequired] public DateTime NowUtc { get; set; }

    /// <summary>It is to be read on this round, and was not passed by.</summary>
    [Parameter] public bool IsDue { get; set; }

    private string? Late => Stop is { FilledAtUtc: not null, DueAtUtc: { } due } ? Visit.Format.Late(due, NowUtc) : null;

    private string LevelWords => Stop.Place.Levels.Now is { } now
        ? Visit.Format.Say(Texts.Round_LevelOfBrim, Visit.Format.Number(now * 100, 0))
        : Texts.Round_LevelUnknown;

    private string ToDo => Stop.FilledAtUtc is null ? Texts.Round_Empty
        : Stop.LastReadAtUtc is null && Stop.Tests.Remaining.Count == 0 ? Texts.Round_FirstReading
        : Stop.Tests.IsPartlyRead ? Visit.Say(Texts.Round_StillToDo, Names(", "))
        : Names(" · ");

    // The one value that decides, else when it was read last, else when its test falls due.
    private string? Remark => Stop.Skip is { } skip ? Visit.Say(Texts.Round_Skipped, Visit.Format.Time(skip.AtUtc), SkipSentences.Why(skip.Reason, skip.Words))
        : Stop.FilledAtUtc is not { } filled ? null
        : Stop.LastReadAtUtc is not { } read ? Visit.Format.Say(Texts.Round_Filled, Visit.Format.Ago(filled, NowUtc))
        : Late is not null ? Visit.Format.Say(Texts.Round_LastRead, Visit.Format.When(read, NowUtc))
        : Stop.Worst is { } worst ? Visit.Say(Texts.Round_Worst, Visit.Sentences.Parameter(worst.Parameter), Visit.Sentences.Value(worst.Parameter, worst.Value))
        : Stop.DueAtUtc is { } due ? Visit.Format.Say(Texts.Round_DueOn, Visit.Format.Due(due, NowUtc))
        : Visit.Format.Say(Texts.Round_LastRead, Visit.Format.When(read, NowUtc));

    private string Names(string between) => string.Join(between, Stop.Tests.Remaining.Select(Visit.Sentences.Parameter));
}
