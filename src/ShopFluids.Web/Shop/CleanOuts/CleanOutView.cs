using ShopFluids.Core.CleanOuts;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Shop.Entry;

namespace ShopFluids.Web.Shop.CleanOuts;

/// <summary>The page of a clean-out as it is drawn.</summary>
/// <param name="CleanOutId">That of the page, or the one that beginning would give.</param>
/// <param name="First">The first reading, once it is its turn.</param>
/// <param name="At">The step that was refused.</param>
/// <param name="Typed">What was typed there.</param>
/// <param name="Faults">What is wrong there, by field.</param>
/// <param name="BreakOffFault">What is wrong with the reason for breaking off.</param>
public sealed record CleanOutView(
    ShopVisit Visit,
    CleanOutPage Page,
    Guid CleanOutId,
    EntryView? First = null,
    CleanOutStepKind? At = null,
    CleanOutForm? Typed = null,
    bool IsLeavingOut = false,
    IReadOnlyDictionary<string, string>? Faults = null,
    string? Notice = null,
    string? BreakOffFault = null,
    string BreakOffReason = "")
{
    /// <summary>The place on the page where it goes on.</summary>
    public const string Now = "now";

    public string Tag => Page.Place.Tag;

    public bool MayAct => Visit.CanOperate;

    public bool IsRefused => Notice is not null || Faults is { Count: > 0 } || BreakOffFault is not null || First is { Faults.Count: > 0 } or { Questions.Count: > 0 } or { Notice: not null };

    public int DoneCount => Page.Steps.Count(s => s.Noted is not null);

    /// <summary>The first reading counts as the last step.</summary>
    public int StepCount => Page.Steps.Count + 1;

    public string Say(string pattern, params object?[] values) => Visit.Format.Say(pattern, values);

    public string Volume(double litres) => Visit.Format.Volume(litres);

    public CleanOutForm FormOf(CleanOutPageStep step)
    {
        ArgumentNullException.ThrowIfNull(step);
        return At == step.Kind && Typed is not null ? Typed : CleanOutForm.Of(Page, step, Visit.Format);
    }

    public bool IsAt(CleanOutStepKind kind) => At == kind;

    public string? FaultAt(CleanOutStepKind kind, string field) => At == kind ? Faults?.GetValueOrDefault(field) : null;

    /// <summary>Each step has its form, and a field of one name stands in several.</summary>
    public static string IdOf(CleanOutStepKind kind, string field) => $"{kind.ToString().ToLowerInvariant()}-{field}";

    /// <summary>How a step is done, with its numbers.</summary>
    public IReadOnlyList<string> How(CleanOutStepKind kind)
    {
        var (numbers, format) = (Page.Numbers, Visit.Format);
        return kind switch
        {
            CleanOutStepKind.Plan =>
            [
                Texts.CleanOut_PlanHow,
                Say(Texts.CleanOut_PlanGives, Volume(numbers.CleanerLitres), CleanOutSentences.Brief(format, Page.Choice.CirculationHours), Volume(numbers.WasteLitres), Volume(numbers.Refill.WaterLitres), Volume(numbers.Refill.ConcentrateLitres)),
            ],
            CleanOutStepKind.SafetySheets => [string.IsNullOrWhiteSpace(Page.SafetySheetPlace) ? Texts.CleanOut_SafetySheetsHow : Say(Texts.CleanOut_SafetySheetsAt, Page.SafetySheetPlace)],
            CleanOutStepKind.Cleaner => numbers.RemoveForCleanerLitres > 0
                ? [Say(Texts.CleanOut_CleanerRemove, Volume(numbers.RemoveForCleanerLitres)), Cleaner]
                : [Cleaner],
            CleanOutStepKind.Carrier => [Say(Texts.CleanOut_CarrierHow, Volume(numbers.WasteLitres))],
            CleanOutStepKind.LockOut => [Texts.CleanOut_LockOutHow],
            CleanOutStepKind.Drain => [Say(Texts.CleanOut_DrainHow, Volume(numbers.DrainLitres), Volume((double)Page.Choice.HeelLitres))],
            CleanOutStepKind.Wipe => [Texts.CleanOut_WipeHow],
            CleanOutStepKind.Rinse => [Say(Texts.CleanOut_RinseHow, format.Count(Page.Choice.Rinses), Volume((double)Page.Choice.RinseLitres), format.Number(numbers.OldFluidLeftPercent, 1))],
            CleanOutStepKind.Inspect => [Texts.CleanOut_InspectHow],
            CleanOutStepKind.Unlock => [Texts.CleanOut_UnlockHow],
            CleanOutStepKind.Refill =>
            [
                Say(Texts.CleanOut_RefillHow, Volume(numbers.Refill.WaterLitres), Volume(numbers.Refill.ConcentrateLitres), format.Percent(numbers.Refill.ExpectedPercent)),
                $"{Say(Texts.CleanOut_RefillEnds, format.Percent(numbers.ExpectedPercent))} {Texts.CleanOut_LotNote}",
            ],
            _ => [],
        };
    }

    /// <summary>While locks are on, whoever takes over must know whose they are.</summary>
    public string? LockedBy(CleanOutStepKind kind) =>
        kind is > CleanOutStepKind.LockOut and < CleanOutStepKind.Unlock && Page.Step(CleanOutStepKind.LockOut) is { DoneAtUtc: { } at } locked && locked.PersonId != Visit.Actor.PersonId
            ? Say(Texts.CleanOut_LockedBy, locked.By, Visit.Format.When(at, Page.NowUtc))
            : null;

    private string Cleaner => Say(Texts.CleanOut_CleanerHow, Volume(Page.Numbers.CleanerLitres), CleanOutSentences.Brief(Visit.Format, Page.Choice.CirculationHours));
}
