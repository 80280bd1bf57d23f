using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Bench;

/// <summary>A field of a calculator with its unit, its hint and what is wrong with it.</summary>
public sealed partial class BenchField
{
    [Parameter, EditorRequired]
    public required CalculatorForm Form { get; set; }

    [Parameter, EditorRequired]
    public required BenchInput Input { get; set; }

    [Parameter, EditorRequired]
    public required DeskWords Words { get; set; }

    /// <summary>The sump that filled in; empty without one.</summary>
    [Parameter]
    public string SumpTag { get; set; } = "";

    [Parameter, EditorRequired]
    public EventCallback<(BenchInput Input, string Text)> Changed { get; set; }

    private string Id => $"b-{Input.Code}";

    private string? Fault => Form.Fault(Input) is { } fault ? Words.Sentences.Field(fault with { Field = Input.Label() }) : null;

    private string? Invalid => Fault is null ? null : "true";

    private string? Hint
    {
        get
        {
            var parts = string.Join("; ", new[]
            {
                Form.IsOfSump(Input) ? Words.Format.Say(Texts.Bench_FromSump, SumpTag) : null,
                Input.Hint?.Invoke(),
                Input is BenchSeries series ? SeriesHint(series) : null,
            }.OfType<string>());
            return parts.Length == 0 ? null : parts;
        }
    }

    private string Unit => Input is BenchNumber number ? UnitOf(number) : "";

    private string DescribedBy => string.Join(' ', new[] { Input is BenchNumber ? $"{Id}-unit" : null, Fault is null ? null : $"{Id}-fault", Hint is null ? null : $"{Id}-hint" }.OfType<string>());

    private string UnitOf(BenchNumber number) => number.Kind == QuantityKind.PerVolume ? $"/{Form.Format.VolumeUnit}" :
        QuantityInput.Unit(number.Kind, Form.Format.Units) is { Length: > 0 } preferred ? preferred : number.Unit;

    // A list has no room for its unit behind it, so it is said before how to type it.
    private string SeriesHint(BenchSeries series) =>
        QuantityInput.Unit(series.Kind, Form.Format.Units) is { Length: > 0 } unit ? Words.Format.Say(Texts.Bench_SeriesHintIn, unit) : Texts.Bench_SeriesHint;

    private Task ChangeAsync(ChangeEventArgs e) => Changed.InvokeAsync((Input, e.Value as string ?? ""));
}
