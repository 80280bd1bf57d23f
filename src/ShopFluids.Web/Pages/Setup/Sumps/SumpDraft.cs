using ShopFluids.Calculations.Volumes;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Pages.Setup.Fields;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Setup.Sumps;

/// <summary>A machine as it is being typed.</summary>
public sealed class MachineDraft(Guid id)
{
    public Guid Id { get; } = id;

    public string Tag { get; set; } = "";

    public string Name { get; set; } = "";

    public string Process { get; set; } = "";

    public NumberBox WeeklyHours { get; } = new();

    public IReadOnlySet<string> Delivery { get; set; } = new HashSet<string>(StringComparer.Ordinal) { nameof(Core.Machines.Delivery.Flood) };

    /// <summary>Every field that can be changed later, in the order of the form.</summary>
    public IReadOnlyList<DraftLine> Lines =>
    [
        new(Texts.Setup_MachineKind, Name),
        new(Texts.FieldName_Process, Process),
        new(Texts.FieldName_WeeklyHours, WeeklyHours.Text),
        new(Texts.Setup_Delivery, string.Join(", ", SumpChoices.Delivery.Where(d => Delivery.Contains(d.Value)).Select(d => d.Text))),
    ];

    /// <summary>A machine as it is set up.</summary>
    public static MachineDraft Of(Machine machine, ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(machine);
        var draft = new MachineDraft(machine.Id)
        {
            Tag = machine.Tag,
            Name = machine.Name,
            Process = machine.Process,
            Delivery = SumpChoices.Delivery.Select(d => d.Value).Where(d => machine.Delivery.HasFlag(Enum.Parse<Delivery>(d))).ToHashSet(StringComparer.Ordinal),
        };
        draft.WeeklyHours.Show(machine.WeeklyHours, format);
        return draft;
    }

    public Delivery DeliveryFlags => Delivery.Aggregate(Core.Machines.Delivery.None, (all, one) => all | Enum.Parse<Delivery>(one));
}

/// <summary>A sump as it is being typed.</summary>
public sealed class SumpDraft(Guid id)
{
    public Guid Id { get; } = id;

    public string AreaId { get; set; } = "";

    public string Tag { get; set; } = "";

    public string WaterId { get; set; } = "";

    public NumberBox WalkOrder { get; } = new();

    public string Kind { get; set; } = nameof(GeometryKind.Rectangular);

    public bool IsTable => Kind == nameof(GeometryKind.StrappingTable);

    public NumberBox Length { get; } = new(QuantityKind.Length);

    public NumberBox Width { get; } = new(QuantityKind.Length);

    public NumberBox Brim { get; } = new(QuantityKind.Length);

    public NumberBox Displaced { get; } = new(QuantityKind.Volume);

    public string Table { get; set; } = "";

    public NumberBox FullMark { get; } = new(QuantityKind.Length);

    public NumberBox PumpIntake { get; } = new(QuantityKind.Length);

    public List<MachineDraft> Machines { get; } = [];

    /// <summary>The shape as far as it is typed, for the drawing; null while it is none.</summary>
    public SumpGeometry? Geometry(UnitSystem units)
    {
        if (IsTable)
        {
            return StrappingText.TryRead(Table, units, out var rows, out _) && IsTableOfASump(rows)
                ? new StrappingTableSump([.. rows.Select(r => new StrappingPoint((double)r.LevelMm, (double)r.VolumeLitres))])
                : null;
        }

        return Length.Value(units) is { } length and > 0 and <= 20_000
            && Width.Value(units) is { } width and > 0 and <= 20_000
            && Brim.Value(units) is { } brim and > 0 and <= 5_000
            && (Displaced.IsEmpty ? 0 : Displaced.Value(units)) is { } displaced and >= 0
            && displaced < length * width * brim / 1_000_000
                ? new RectangularSump((double)length, (double)width, (double)brim, (double)displaced)
                : null;
    }

    private static bool IsTableOfASump(IReadOnlyList<StrappingRow> rows) =>
        rows.Count >= 2
        && rows[0] is { LevelMm: 0, VolumeLitres: >= 0 }
        && rows.Zip(rows.Skip(1)).All(p => p.Second.LevelMm > p.First.LevelMm && p.Second.VolumeLitres > p.First.VolumeLitres);
}
