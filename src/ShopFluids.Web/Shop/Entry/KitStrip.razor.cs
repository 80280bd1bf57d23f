using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Shop.Entry;

public partial class KitStrip
{
    private IReadOnlyList<EntryInstrument> _refractometers = [];
    private IReadOnlyList<EntryInstrument> _forPh = [];

    [Parameter, EditorRequired] public required EntryView View { get; set; }

    private static string[] Controls => [EntryForm.RefractometerName, EntryForm.PhMeterName];

    protected override void OnParametersSet()
    {
        _refractometers = [.. View.Page.Instruments.Where(EntryKit.IsRefractometer)];
        _forPh = [.. View.Page.Instruments.Where(EntryKit.IsForPh)];
    }

    private string? InvalidAt(string control) => View.FaultAt(control) is null ? null : "true";

    private string? DescribedAt(string control) => View.FaultAt(control) is null ? null : FaultId(control);

    private static string FaultId(string control) => $"{control}-fault";

    private string Describe(EntryInstrument instrument)
    {
        // First what must not be cut off where there is little room.
        var name = instrument.IsLapsed ? View.Visit.Say(Texts.Entry_InstrumentLapsed, instrument.Tag) : instrument.Tag;
        name = instrument.CheckedOn is { } day ? View.Visit.Say(Texts.Entry_InstrumentChecked, name, View.Visit.Format.ShortDay(day)) : name;
        return EntryKit.IsRefractometer(instrument) && !instrument.CompensatesTemperature ? View.Visit.Say(Texts.Entry_InstrumentUncompensated, name) : name;
    }
}
