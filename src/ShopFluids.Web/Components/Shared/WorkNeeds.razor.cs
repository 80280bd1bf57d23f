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

    /// <summary>How it is done stands beside it already, and for what a flag asks its cautions, too.</summary>
    [Parameter]
    public bool IsBesideAdvice { get; set; }

    private bool CautionsStandBeside => IsBesideAdvice && !CareSchedule.IsPlanned(Cause);

    private IReadOnlyList<string> Steps => Say.NeedsOf(Cause)?.Steps ?? [];

    private string Filter => Say.NeedsOf(Cause)?.Filter ?? "";

    // The plan says by its own steps and minutes how its work is done.
    private string InOneLine => IsBesideAdvice || CareSchedule.IsPlanned(Cause) ? "" : Sentences.TaskHow(Kind);

    private IReadOnlyList<Caution> Cautions => CautionsStandBeside ? [] : WorkSentences.CautionsOf(Kind);

    private string Summary => Say.MinutesOf(Cause) is > 0 and var minutes ? Say.Format.Say(Texts.Work_HowMinutes, Say.Format.Count(minutes)) : Texts.Work_How;
}
