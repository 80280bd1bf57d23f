using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Web.Components.Shared;

public sealed partial class WorkNeeds
{
    [Parameter, EditorRequired]
    public required TaskKind Kind { get; set; }

    [Parameter, EditorRequired]
    public required string Cause { get; set; }

    [Parameter, EditorRequired]
    public required Sentences Say { get; set; }

    [Parameter]
    public string? SafetySheetPlace { get; set; }

    private IReadOnlyList<string> Steps => Say.NeedsOf(Cause)?.Steps ?? [];

    private string Filter => Say.NeedsOf(Cause)?.Filter ?? "";

    // What a flag asks for has its cautions beside the advice.
    private IReadOnlyList<Caution> Cautions => CareSchedule.IsPlanned(Cause) ? WorkSentences.CautionsOf(Kind) : [];

    private string Summary => Say.MinutesOf(Cause) is > 0 and var minutes ? Say.Format.Say(Texts.Work_HowMinutes, Say.Format.Count(minutes)) : Texts.Work_How;
}
