using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Pages.Sumps;

public sealed partial class SumpFigureBlock
{
    [Parameter, EditorRequired]
    public required SumpView View { get; set; }

    [Parameter, EditorRequired]
    public required string Parameter { get; set; }

    private string Name => View.Words.Sentences.Parameter(Parameter);

    private Core.Limits.Parameter? Definition => View.Words.Setup.FindParameter(Parameter);

    private string NumberOf(decimal value) => View.Format.InUnit((double)value, Definition?.Unit ?? "", Definition?.Decimals ?? 1).Number;

    private string Beside(SumpFigure figure)
    {
        var unit = View.Format.InUnit(0, Definition?.Unit ?? "", 0).Unit;
        return figure.Uncertainty > 0 ? $"{unit} ± {NumberOf(figure.Uncertainty)}".TrimStart() : unit;
    }

    private string Spoken(SumpFigure figure) => figure.Limits is { TargetLow: { } low, TargetHigh: { } high }
        ? View.Format.Say(Texts.Sump_GaugeSpoken, Name, NumberOf(figure.Value), NumberOf(low), NumberOf(high))
        : $"{Name} {NumberOf(figure.Value)}, {View.Words.Sentences.VerdictOn(Parameter, figure.Verdict, figure.Direction)}";
}
