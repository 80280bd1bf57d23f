using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;

namespace ShopFluids.Web.Pages.Sumps;

/// <summary>The five figures that a sump's page shows first.</summary>
public sealed partial class SumpBand
{
    [Parameter, EditorRequired]
    public required SumpView View { get; set; }

    private SumpVolume? Volume => View.Page.Volume;

    private DateTime? LastAddition => View.Page.History.Movements.FirstOrDefault(m => m.Kind == MovementKind.Addition)?.AtUtc;

    private string VolumeHeading => Volume is { LevelReadAtUtc: { } read } volume
        ? View.Format.Say(volume.IsReckoned ? Texts.Sump_VolumeReckoned : Texts.Sump_VolumeRead, View.Format.When(read, View.Page.AtUtc))
        : Texts.Sheet_Volume;

    private string VolumeWords => Volume is { } volume
        ? View.Format.Say(Texts.Sump_VolumeSpoken, View.Format.Volume(volume.Litres), View.Format.Volume(volume.FullLitres))
        : Texts.Sump_VolumeUnknown;

    private string NextTestWhy =>
        View.Page.Open.Tasks.FirstOrDefault(t => t.Kind == TaskKind.Test) switch
        {
            { IsOfPlan: false } => Texts.Sump_TestFromFlag,
            { Why: { } why } => View.Words.Sentences.WhyThen(why),
            _ => Texts.Sump_TestFromPlan,
        };
}
