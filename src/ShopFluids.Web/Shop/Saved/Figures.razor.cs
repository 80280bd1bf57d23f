using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;

namespace ShopFluids.Web.Shop.Saved;

public partial class Figures
{
    [Parameter, EditorRequired] public required SavedView View { get; set; }

    private string Label(MeasurementOutcome measured) => measured.Method == MeasuringMethod.Titration ? View.Say(Texts.Entry_ByTitration, View.Visit.Sentences.Parameter(measured.Parameter))
        : measured.Parameter == ParameterCodes.Level && View.Page.LevelLitres is not null ? View.Say(Texts.Saved_VolumeAt, View.Visit.Sentences.Value(measured.Parameter, measured.Value))
        : View.Visit.Sentences.Parameter(measured.Parameter);

    private string Value(MeasurementOutcome measured) => measured.Parameter == ParameterCodes.Level && View.Page.LevelLitres is { } litres
        ? View.Visit.Format.Volume(litres)
        : View.Visit.Sentences.Value(measured.Parameter, measured.Value);

    // It was measured; only nothing judges it.
    private string Word(MeasurementOutcome measured) => measured.Verdict == Verdict.NotMeasured ? Texts.Saved_NoLimit : View.Visit.Sentences.VerdictOn(measured.Parameter, measured.Verdict, measured.Direction);
}
