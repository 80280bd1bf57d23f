using Microsoft.AspNetCore.Components;
using ShopFluids.Calculations.Volumes;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Shared;

namespace ShopFluids.Web.Pages.Setup.Sumps;

public sealed partial class SumpDrawing
{
    private static readonly string Edge = Svg.Number(SumpDrawingLayout.Right);
    private static readonly string Words = Svg.Number(SumpDrawingLayout.Right + 20);
    private static readonly string TextX = Svg.Number(SumpDrawingLayout.Right + 26);
    private SumpDrawingLayout? _layout;

    /// <summary>Null while what is typed is no shape.</summary>
    [Parameter, EditorRequired]
    public required SumpGeometry? Geometry { get; set; }

    [Parameter]
    public double? FullMarkMm { get; set; }

    [Parameter]
    public double? PumpIntakeMm { get; set; }

    [Parameter]
    public bool IsTable { get; set; }

    [Parameter, EditorRequired]
    public required ShopFormat Format { get; set; }

    private string Said => _layout is { } drawn
        ? string.Join(". ", new[] { Mark(Texts.FieldName_Brim, drawn.Brim), drawn.FullMark is { } full ? Mark(Texts.FieldName_FullMark, full) : null, drawn.PumpIntake is { } intake ? Mark(Texts.FieldName_PumpIntake, intake) : null }.OfType<string>())
        : "";

    protected override void OnParametersSet() => _layout = Geometry is null ? null : new SumpDrawingLayout(Geometry, FullMarkMm, PumpIntakeMm);

    private string Mark(string name, DrawnMark mark) => Format.Say(Texts.Setup_DrawnMark, name, Format.Length(mark.LevelMm), Format.Volume(mark.Litres));
}
