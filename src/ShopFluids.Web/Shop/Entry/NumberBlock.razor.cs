using System.Globalization;
using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;

namespace ShopFluids.Web.Shop.Entry;

public partial class NumberBlock
{
    // What fits beside the number in its box.
    private const int LongestUnitInBox = 4;

    [Parameter, EditorRequired] public required EntryView View { get; set; }

    [Parameter, EditorRequired] public required EntryField Field { get; set; }

    [Parameter] public string? Focus { get; set; }

    private string Name => EntryForm.ValueName(Field.Key);

    private string WayName => EntryForm.WayName(Field.Key);

    private string TemperatureName => EntryForm.TemperatureName(Field.Key);

    private string LastId => $"{Name}-last";

    private string WorkId => $"{Name}-work";

    private string FaultId => $"{Name}-fault";

    private string DescribedBy => Fault is null ? $"{LastId} {WorkId}" : $"{FaultId} {LastId}";

    private TypedField Typed => View.Form.Of(Field);

    private EntryWay Way => EntryKit.WayOf(Field, Typed, View.Visit.Format.Units);

    private EntryWay Usual => EntryKit.Usual(Field, View.Visit.Format.Units);

    // The select whose instrument belongs to the box.
    private string? Kit => Usual.Method == MeasuringMethod.Refractometer ? EntryForm.RefractometerName : Field.Parameter == ParameterCodes.Ph ? EntryForm.PhMeterName : null;

    // What the scale shows: inches are read finer than millimetres, and most pH meters finer than strips.
    private int Decimals => Usual.Unit == "in" || IsReadToHundredths ? 2 : Field.Decimals;

    private bool IsReadToHundredths => Field.Parameter == ParameterCodes.Ph && View.Page.Instruments.Any(i => EntryKit.IsForPh(i) && i.ShowsHundredths);

    // For the script, which reads numbers in no culture.
    private string? Most => Usual.High?.ToString(CultureInfo.InvariantCulture);

    private bool HasSelect => Field.Ways.Count > 1;

    private bool IsWide => Field.Ways.Any(w => w.Unit.Length > LongestUnitInBox);

    private MeasurementOutcome? Measured => View.Measured(Field);

    private bool IsAsked => View.Questions.Contains(Field.Key);

    private string? Fault => View.FaultAt(Name) ?? View.FaultAt(WayName);

    private string? TemperatureFault => View.FaultAt(TemperatureName);

    private string TemperatureUnit => View.Visit.Format.Units == UnitSystem.UsCustomary ? "°F" : "°C";

    private string CssClass => IsAsked || Fault is not null || TemperatureFault is not null ? "par q"
        : Focus == Name ? "par on"
        : Warning is not null ? "par w"
        : "par";

    private string? Factor => Field.Ways.All(w => w.Method != MeasuringMethod.Refractometer) ? null
        : View.Page.ZeroBrix == 0 ? View.Visit.Say(Texts.Entry_Factor, View.Visit.Format.Number(View.Page.RefractometerFactor, 2))
        : View.Visit.Say(Texts.Entry_FactorAndZero, View.Visit.Format.Number(View.Page.RefractometerFactor, 2), View.Visit.Format.Number(View.Page.ZeroBrix, 1));

    // Shown where something was worked out: from a scale, or from another unit.
    private string? Gives => Measured is not { } measured ? null
        : Field.Parameter == ParameterCodes.Level ? View.LevelGives(measured.Value)
        : measured.RawUnit == measured.Unit || measured.RawUnit == "pH" ? null
        : View.Visit.Sentences.Value(Field.Parameter, measured.Value);

    private string? Warning => Measured is { Verdict: >= Verdict.Warning } && !IsAsked && View.Preview is { } preview
        && preview.Raised.Where(f => f.Parameter == Field.Parameter).OrderByDescending(f => f.Severity).FirstOrDefault() is { } flag
            ? View.Visit.Sentences.Flag(flag.Rule, flag.Parameter, flag.Severity, flag.Direction, flag.Numbers)
            : null;

    private RenderFragment WaySelect => builder =>
    {
        builder.OpenElement(0, "select");
        builder.AddAttribute(1, "id", WayName);
        builder.AddAttribute(2, "name", WayName);
        builder.AddAttribute(3, "aria-label", View.Visit.Say(Texts.FieldName_Unit, EntryWords.Label(View.Visit, Field)));
        foreach (var way in Field.Ways)
        {
            builder.OpenElement(4, "option");
            builder.AddAttribute(5, "value", way.Key);
            builder.AddAttribute(6, "selected", way == Way);
            builder.AddContent(7, way.Unit);
            builder.CloseElement();
        }

        builder.CloseElement();
    };

    // A limit where it stands on the scale that is read, for a tablet that cannot ask the server; null on any other scale.
    private string? OnScale(decimal? limit) => limit is not { } value ? null
        : Usual.Method == MeasuringMethod.Refractometer && View.Page.RefractometerFactor > 0 ? decimal.Round((value / View.Page.RefractometerFactor) + View.Page.ZeroBrix, 2).ToString(CultureInfo.InvariantCulture)
        : Usual.Unit == Field.Unit || Usual.Unit == "pH" ? value.ToString(CultureInfo.InvariantCulture)
        : null;

    private string Write(decimal value) => View.Visit.BareValue(Field.Parameter, value);
}
