using Microsoft.AspNetCore.Components;
using ShopFluids.Calculations.Upkeep;
using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Shutdowns;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Shutdowns;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Setup.Care;

public sealed partial class ShutdownWorkPanel
{
    /// <summary>So many sumps are shown at first; a shop of three hundred is asked for.</summary>
    public const int Few = 10;

    private bool _isWhole;

    [Parameter, EditorRequired]
    public required ShutdownRow Row { get; set; }

    [Parameter, EditorRequired]
    public required IReadOnlyList<SumpShutdownWork> Work { get; set; }

    [Parameter, EditorRequired]
    public required DeskWords Words { get; set; }

    private ShopFormat Format => Words.Format;

    private string Title => Format.Say(Texts.Setup_ShutdownWork, Row.Name, Format.LongDay(Row.FirstDay), Format.LongDay(Row.LastDay));

    private IEnumerable<SumpShutdownWork> Shown => _isWhole ? Work : Work.Take(Few);

    private static string PhaseWord(ShutdownPhase phase) => phase switch
    {
        ShutdownPhase.Before => Texts.Setup_ShutdownBefore,
        ShutdownPhase.During => Texts.Setup_ShutdownDuring,
        ShutdownPhase.After => Texts.Setup_ShutdownAfter,
        _ => throw new ArgumentOutOfRangeException(nameof(phase), phase, "There is no word for this."),
    };

    private string When(PlannedShutdownTask task) => task.State switch
    {
        TaskState.Done => Texts.Record_Done,
        TaskState.Skipped => Texts.Record_Skipped,
        _ => Format.Weekday(task.DueDay),
    };

    private string HowMuch(SumpShutdownWork sump, PlannedShutdownTask task)
    {
        var much = task.Kind switch
        {
            TaskKind.Adjust when task.Recipe is null => Target(sump.SumpTag),
            TaskKind.Circulate => $"{Sentences.TaskHow(task.Kind)} {Format.Say(Texts.Setup_ShutdownAgain, Format.Count(new ShutdownLimits().CirculateFromDays))}",
            TaskKind.Test => task.Phase == ShutdownPhase.After ? Texts.Setup_ShutdownCounts : "",
            _ => Sentences.TaskHow(task.Kind),
        };
        return $"{much} {(task.IsAlsoOfPlan ? Texts.Setup_ShutdownAlsoOfPlan : "")}".Trim();
    }

    private string Target(string tag) =>
        Words.Setup.FindSump(tag) is { } sump && Words.Setup.OpenCharge(sump.Id) is { } charge
            ? Format.Say(
                Texts.Setup_ShutdownTarget,
                Words.Sentences.Value(ParameterCodes.Concentration, Words.Setup.Fluid(charge.FluidId).TargetPercent),
                Words.Sentences.Value(ParameterCodes.Level, sump.FullMarkMm))
            : Sentences.TaskHow(TaskKind.Adjust);
}
