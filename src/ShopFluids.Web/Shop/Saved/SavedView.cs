using ShopFluids.Core.Readings;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Shop.Saved;

/// <summary>The page after saving as it is drawn.</summary>
/// <param name="ReadingId">The stored reading.</param>
/// <param name="NextTag">The next sump of the round; null when nothing is due any more.</param>
/// <param name="Faults">What is wrong with the addition, by field.</param>
/// <param name="TaskFault">What is wrong with the ending of a task.</param>
public sealed record SavedView(
    ShopVisit Visit,
    SavedPage Page,
    Guid ReadingId,
    string? NextTag,
    AdditionForm Addition,
    IReadOnlyDictionary<string, string> Faults,
    TaskFault? TaskFault = null,
    string? Notice = null)
{
    /// <summary>The time on the paper sheet that this was entered from, or 1; empty where it was typed at the sump.</summary>
    public string Paper { get; init; } = "";

    /// <summary>What is asked about the addition before it is noted.</summary>
    public IReadOnlyList<string> Questions { get; init; } = [];

    /// <summary>The next sump, from paper as this one was.</summary>
    public string NextAddress(string tag) => Paper.Length == 0 ? Visit.Links.Enter(tag) : Visit.Links.OnPaper(tag, Paper == "1" ? "" : Paper);

    public string Tag => Page.Place.Tag;

    /// <summary>Only the latest reading of the charge still says what to do, and only to who may do it.</summary>
    public bool MayAct => Page.IsCurrent && Visit.CanOperate;

    /// <summary>A task stays to be done whichever reading one looks at.</summary>
    public bool MayTick => Visit.CanOperate;

    public string? FaultAt(string field) => Faults.GetValueOrDefault(field);

    public string Say(string pattern, params object?[] values) => Visit.Format.Say(pattern, values);

    public string TargetWords => Page.Target switch
    {
        { TargetLow: { } low, TargetHigh: { } high } => " " + Say(Texts.Saved_Target, Visit.Format.Number(low, 1), Visit.Format.Percent((double)high)),
        _ => "",
    };
}

/// <param name="Sentence">Why the task is still open.</param>
/// <param name="Reason">Why it was to be skipped, as typed.</param>
/// <param name="Found">What was found, as typed.</param>
/// <param name="IsOfDone">It was to be done, not skipped.</param>
public sealed record TaskFault(Guid TaskId, string Sentence, string Reason, FindInput Found, bool IsOfDone);
