using ShopFluids.Calculations.Volumes;
using ShopFluids.Core.Database;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Pages.Setup.Fields;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Setup.Sumps;

/// <summary>A sump as it is being typed.</summary>
public sealed class SumpDraft(Guid id)
{
    private SumpShape? _shape;
    private string _shownTable = "";

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

    /// <summary>Machines that are new to the shop.</summary>
    public List<MachineDraft> Machines { get; } = [];

    /// <summary>The ids of machines of the shop that it serves.</summary>
    public IReadOnlySet<string> Served { get; set; } = new HashSet<string>(StringComparer.Ordinal);

    public Guid? WaterSourceId => Guid.TryParse(WaterId, out var water) ? water : null;

    /// <summary>A sump as it is set up.</summary>
    public static SumpDraft Of(Sump sump, ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(sump);
        var draft = new SumpDraft(sump.Id)
        {
            AreaId = sump.AreaId.ToString(),
            Tag = sump.Tag,
            WaterId = sump.WaterSourceId?.ToString() ?? "",
            Kind = sump.Shape.Kind.ToString(),
            Table = StrappingText.Write(sump.Shape.Points, format),
            _shape = sump.Shape,
            _shownTable = StrappingText.Write(sump.Shape.Points, format),
            Served = sump.Machines.Select(m => m.MachineId.ToString()).ToHashSet(StringComparer.Ordinal),
        };
        draft.WalkOrder.Show(sump.WalkOrder, format);
        if (!draft.IsTable)
        {
            draft.Length.Show(sump.Shape.LengthMm, format);
            draft.Width.Show(sump.Shape.WidthMm, format);
            draft.Brim.Show(sump.Shape.BrimMm, format);
            draft.Displaced.Show(sump.Shape.DisplacedLitres, format);
        }

        draft.FullMark.Show(sump.FullMarkMm, format);
        draft.PumpIntake.Show(sump.PumpIntakeMm, format);
        return draft;
    }

    /// <summary>Every field that can be changed later, in the order of the form.</summary>
    public IReadOnlyList<DraftLine> Lines(ShopSetup setup) =>
    [
        new(Texts.Setup_MachinesServed, string.Join(", ", SumpChoices.Machines(setup, this).Where(m => Served.Contains(m.Value)).Select(m => m.Text).Concat(Machines.Select(m => m.Tag)))),
        new(Texts.FieldName_Area, TextOf(SumpChoices.Areas(setup), AreaId)),
        new(Texts.FieldName_WaterSource, TextOf(SumpChoices.Waters(setup), WaterId)),
        new(Texts.FieldName_WalkOrder, WalkOrder.Text),
        new(Texts.Setup_Shape, TextOf(SumpChoices.Shapes, Kind)),
        new(Texts.FieldName_Length, IsTable ? "" : Length.Text),
        new(Texts.FieldName_Width, IsTable ? "" : Width.Text),
        new(Texts.FieldName_Brim, IsTable ? "" : Brim.Text),
        new(Texts.FieldName_Displaced, IsTable ? "" : Displaced.Text),
        new(Texts.FieldName_StrappingTable, IsTable ? Table : ""),
        new(Texts.FieldName_FullMark, FullMark.Text),
        new(Texts.FieldName_PumpIntake, PumpIntake.Text),
    ];

    public IReadOnlyList<NewMachine> ReadMachines(FormReader read) =>
    [
        .. Machines.Select((m, i) => new NewMachine(
            m.Id,
            read.Text(MachineDraft.FieldOf("machineTag", i), m.Tag),
            read.Text(MachineDraft.FieldOf("machineName", i), m.Name),
            m.Process,
            read.Number(MachineDraft.FieldOf("weeklyHours", i), m.WeeklyHours),
            m.DeliveryFlags)),
    ];

    public SumpShape ReadShape(FormReader read)
    {
        ArgumentNullException.ThrowIfNull(read);
        if (!IsTable)
        {
            return new SumpShape(
                GeometryKind.Rectangular,
                read.Number("lengthMm", Length),
                read.Number("widthMm", Width),
                read.Number("brimMm", Brim),
                read.OptionalNumber("displacedLitres", Displaced) ?? 0,
                []);
        }

        // Shown in another unit it is rounded: what nobody touched stays as it is.
        if (_shape is { Kind: GeometryKind.StrappingTable } kept && Table == _shownTable)
        {
            return kept;
        }

        if (!StrappingText.TryRead(Table, read.Units, out var rows, out var badLine))
        {
            read.Refuse("strappingTable", FieldProblem.NotANumber, badLine);
        }

        return new SumpShape(GeometryKind.StrappingTable, 0, 0, rows.Count == 0 ? 0 : rows[^1].LevelMm, 0, rows);
    }

    /// <summary>The command names the field but not the machine; the refused value tells which it is.</summary>
    public string PlaceOf(FieldError error)
    {
        ArgumentNullException.ThrowIfNull(error);
        var index = error.Field switch
        {
            "machineTag" when error.Detail is { } tag => Machines.FindLastIndex(m => Tags.Key(m.Tag) == Tags.Key(tag)),
            "machineTag" => Machines.FindIndex(m => !Tags.IsValid(m.Tag.Trim())),
            "machineName" => Machines.FindIndex(m => m.Name.Trim().Length is 0 or > 120),
            "process" => Machines.FindIndex(m => m.Process.Trim().Length > 120),
            "weeklyHours" => Machines.FindIndex(m => NumberInput.TryRead(m.WeeklyHours.Text, out var hours) && hours is < 0 or > 168),
            _ => 0,
        };
        return index > 0 ? MachineDraft.FieldOf(error.Field, index) : error.Field == "brimMm" && IsTable ? "strappingTable" : error.Field;
    }

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

    private static string TextOf(IEnumerable<Choice> choices, string value) => choices.FirstOrDefault(c => c.Value == value)?.Text ?? "";

    private static bool IsTableOfASump(IReadOnlyList<StrappingRow> rows) =>
        rows.Count >= 2
        && rows[0] is { LevelMm: 0, VolumeLitres: >= 0 }
        && rows.Zip(rows.Skip(1)).All(p => p.Second.LevelMm > p.First.LevelMm && p.Second.VolumeLitres > p.First.VolumeLitres);
}
