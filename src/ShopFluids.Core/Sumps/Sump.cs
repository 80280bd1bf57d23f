using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Calculations.Volumes;
using ShopFluids.Core.Database;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Water;

namespace ShopFluids.Core.Sumps;

public enum GeometryKind : short
{
    Rectangular = 1,
    StrappingTable = 2,
}

/// <summary>The shape of a sump as a person typed it, in mm and L.</summary>
/// <param name="Points">The strapping table; empty for a rectangular sump.</param>
public sealed record SumpShape(
    GeometryKind Kind,
    decimal LengthMm,
    decimal WidthMm,
    decimal BrimMm,
    decimal DisplacedLitres,
    IReadOnlyList<StrappingRow> Points)
{
    /// <exception cref="ArgumentOutOfRangeException">The shape is none; the set-up lets none in.</exception>
    public SumpGeometry ToGeometry() => Kind == GeometryKind.Rectangular
        ? new RectangularSump((double)LengthMm, (double)WidthMm, (double)BrimMm, (double)DisplacedLitres)
        : new StrappingTableSump([.. Points.Select(p => new StrappingPoint((double)p.LevelMm, (double)p.VolumeLitres))]);

    /// <summary>Whether both have the same measures, line by line; equality alone compares the tables as objects.</summary>
    public bool HasTheMeasuresOf(SumpShape other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return this with { Points = other.Points } == other && Points.SequenceEqual(other.Points);
    }
}

/// <summary>One line of a strapping table.</summary>
public sealed record StrappingRow(decimal LevelMm, decimal VolumeLitres);

/// <summary>A reservoir of fluid; serves one machine or, as a central system, several.</summary>
public sealed class Sump : Entity, ISetup
{
    private Sump()
    {
    }

    public Sump(Guid id, Guid areaId, string tag, SumpShape shape, decimal fullMarkMm, decimal pumpIntakeMm, int walkOrder, Guid? waterSourceId)
    {
        Id = id;
        Tag = tag;
        TagKey = Tags.Key(tag);
        Change(areaId, shape, fullMarkMm, pumpIntakeMm, walkOrder, waterSourceId);
    }

    public Guid AreaId { get; private set; }

    public string Tag { get; private set; } = "";

    public string TagKey { get; private set; } = "";

    public SumpShape Shape { get; private set; } = new(GeometryKind.Rectangular, 0, 0, 0, 0, []);

    /// <summary>The level to which it is topped up, mm.</summary>
    public decimal FullMarkMm { get; private set; }

    /// <summary>The level under which the pump draws air, mm.</summary>
    public decimal PumpIntakeMm { get; private set; }

    /// <summary>Place on the round.</summary>
    public int WalkOrder { get; private set; }

    public Guid? WaterSourceId { get; private set; }

    public bool IsRetired { get; private set; }

    /// <summary>The machines served; more than one makes it a central system.</summary>
    public IReadOnlyCollection<SumpMachine> Machines => _machines;

    private readonly List<SumpMachine> _machines = [];

    public void Change(Guid areaId, SumpShape shape, decimal fullMarkMm, decimal pumpIntakeMm, int walkOrder, Guid? waterSourceId)
    {
        AreaId = areaId;
        Shape = shape;
        FullMarkMm = fullMarkMm;
        PumpIntakeMm = pumpIntakeMm;
        WalkOrder = walkOrder;
        WaterSourceId = waterSourceId;
    }

    /// <summary>Serves these machines and no others.</summary>
    public void Serve(IReadOnlyCollection<Guid> machineIds)
    {
        _machines.RemoveAll(m => !machineIds.Contains(m.MachineId));
        _machines.AddRange(machineIds.Except(_machines.Select(m => m.MachineId)).ToList().Select(id => new SumpMachine(Id, id)));
    }

    public void Retire() => IsRetired = true;

    public SumpGeometry Geometry => Shape.ToGeometry();

    /// <summary>The level at which so much would stand, mm: at the least its bottom, at the most its brim.</summary>
    /// <param name="litres">What it holds, L.</param>
    public double StandingLevelMm(double litres)
    {
        var geometry = Geometry;
        return geometry.LevelMmAt(Math.Clamp(litres, geometry.BottomLitres, geometry.BrimLitres));
    }
}

/// <summary>A machine served by a sump.</summary>
public sealed class SumpMachine : ISetup
{
    private SumpMachine()
    {
    }

    public SumpMachine(Guid sumpId, Guid machineId)
    {
        SumpId = sumpId;
        MachineId = machineId;
    }

    public Guid SumpId { get; private set; }

    public Guid MachineId { get; private set; }
}

internal sealed class SumpConfiguration : IEntityTypeConfiguration<Sump>, IEntityTypeConfiguration<SumpMachine>
{
    public void Configure(EntityTypeBuilder<Sump> builder)
    {
        builder.Property(s => s.Tag).HasMaxLength(Tags.MaximumLength);
        builder.Property(s => s.TagKey).HasMaxLength(Tags.MaximumLength);
        builder.HasIndex(s => s.TagKey).IsUnique();
        builder.Property(s => s.Shape).HasConversion(JsonColumn.Converter<SumpShape>(), JsonColumn.Comparer<SumpShape>());
        builder.Ignore(s => s.Geometry);
        builder.HasOne<Area>().WithMany().HasForeignKey(s => s.AreaId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<WaterSource>().WithMany().HasForeignKey(s => s.WaterSourceId).OnDelete(DeleteBehavior.Restrict);
        builder.HasMany(s => s.Machines).WithOne().HasForeignKey(m => m.SumpId).OnDelete(DeleteBehavior.Cascade);
        builder.Navigation(s => s.Machines).HasField("_machines").UsePropertyAccessMode(PropertyAccessMode.Field);
    }

    public void Configure(EntityTypeBuilder<SumpMachine> builder)
    {
        builder.HasKey(m => new { m.SumpId, m.MachineId });
        builder.HasOne<Machine>().WithMany().HasForeignKey(m => m.MachineId).OnDelete(DeleteBehavior.Restrict);
    }
}
