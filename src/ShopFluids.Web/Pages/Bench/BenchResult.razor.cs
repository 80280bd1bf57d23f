using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Pages.Bench;

/// <summary>What came out, how it was worked out, where the formula is from, and what to be careful of.</summary>
public sealed partial class BenchResult
{
    [Parameter, EditorRequired]
    public required CalculatorForm Form { get; set; }

    /// <summary>Where the safety data sheet of the sump's fluid is kept; null without a sump.</summary>
    [Parameter]
    public string? SafetySheetPlace { get; set; }

    private string Number(BenchFigure figure) => Shown(figure).Number;

    private string Unit(BenchFigure figure) => Shown(figure).Unit;

    private string Quantity(BenchFigure figure) => Shown(figure) is (var number, { Length: > 0 } unit) ? $"{number} {unit}" : Shown(figure).Number;

    private (string Number, string Unit) Shown(BenchFigure figure) => figure.Output.IsInOwnUnit
        ? (Form.Format.Number(figure.Value, figure.Output.Decimals), figure.Output.Unit)
        : Form.Format.InUnit(figure.Value, figure.Output.Unit, figure.Output.Decimals);

    // A difference has no zero point of its own, so a temperature's would be wrong; none of the outputs that has one is a temperature.
    private string GiveOrTake(BenchFigure figure) => figure.Uncertainty is > 0 and var uncertainty
        ? Form.Format.Say(Texts.Bench_PlusMinus, Form.Format.Quantity(uncertainty, figure.Output.Unit, figure.Output.Decimals))
        : "";
}
