using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;

namespace ShopFluids.Web.Pages.Sumps;

/// <summary>The five figures that a sump's page shows first.</summary>
public sealed partial class SumpBand
{
    [Parameter, EditorRequired]
    public required SumpView View { get; set; }

    private SumpFigure? Level => View.Page.Figure(ParameterCodes.Level);

    private DateTime? LastAddition => View.Page.History.Movements.FirstOrDefault(m => m.Kind == MovementKind.Addition)?.AtUtc;

    // The figure then is the level's volume and what was moved since: the level's verdict is not its own.
    private bool IsReckoned => Level is { } read && View.Page.History.Movements.Any(m => m.AtUtc > read.TakenAtUtc);

    private string VolumeHeading => Level is { } read
        ? View.Format.Say(IsReckoned ? Texts.Sump_VolumeReckoned : Texts.Sump_VolumeRead, View.Format.When(read.TakenAtUtc, View.Page.AtUtc))
        : Texts.Sheet_Volume;

    private (Verdict Verdict, Direction Direction) VolumeVerdict => Level is { } read && !IsReckoned ? (read.Verdict, read.Direction) : (Verdict.NotMeasured, Direction.None);

    private double? OverTheMark => View.Page.VolumeLitres - View.Page.FullLitres is { } over and > AdditionDoubts.SlightLitres ? over : null;

    private string VolumeWords => View.Page.VolumeLitres is { } volume
        ? View.Format.Say(Texts.Sump_VolumeSpoken, View.Format.Volume(volume), View.Format.Volume(View.Page.FullLitres))
        : Texts.Sump_VolumeUnknown;

    private string NextTestWhy =>
        View.Page.Open.Tasks.FirstOrDefault(t => t.Kind == TaskKind.Test) switch
        {
            { IsOfPlan: false } => Texts.Sump_TestFromFlag,
            { Why: { } why } => View.Words.Sentences.WhyThen(why),
            _ => Texts.Sump_TestFromPlan,
        };
}
