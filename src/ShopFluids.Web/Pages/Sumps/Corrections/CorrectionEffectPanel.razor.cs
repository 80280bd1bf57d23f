using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Sumps.Corrections;

public sealed partial class CorrectionEffectPanel
{
    [Parameter, EditorRequired]
    public required DeskWords Words { get; set; }

    [Parameter, EditorRequired]
    public required CorrectionDraft Draft { get; set; }

    [Parameter, EditorRequired]
    public required CorrectionEffect Effect { get; set; }

    private Sentences Say => Words.Sentences;

    private List<string> Lines =>
    [
        .. Effect.Ended.Select(f => Words.Format.Say(Texts.Correct_FlagEnds, Flag(f))),
        .. Effect.Raised.Select(f => Words.Format.Say(Texts.Correct_FlagBegins, Flag(f))),
        .. Effect.Withdrawn.Select(t => Words.Format.Say(Texts.Correct_TaskGoes, Say.Task(t.Kind, t.Cause, null))),
        .. Effect.Made.Select(t => Words.Format.Say(Texts.Correct_TaskComes, Say.Task(t.Kind, t.Cause, Effect.Outcome?.Recipe))),
    ];

    private string Flag(FlagOutcome flag) => Say.Flag(flag.Rule, flag.Parameter, flag.Severity, flag.Direction, flag.Numbers);
}
