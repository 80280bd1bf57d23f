using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.Machines;

/// <summary>How fluid reaches the cut.</summary>
[Flags]
public enum Delivery : short
{
    None = 0,
    Flood = 1,
    ThroughTool = 2,
    Mist = 4,
    WashDown = 8,
}

/// <summary>A machine tool.</summary>
public sealed class Machine : Entity, ISetup
{
    private Machine()
    {
    }

    public Machine(Guid id, Guid areaId, string tag, string name, string process, decimal weeklyHours, Delivery delivery)
    {
        Id = id;
        AreaId = areaId;
        Tag = tag;
        TagKey = Tags.Key(tag);
        Change(name, process, weeklyHours, delivery);
    }

    public Guid AreaId { get; private set; }

    /// <summary>As on the machine, such as M-07.</summary>
    public string Tag { get; private set; } = "";

    public string TagKey { get; private set; } = "";

    /// <summary>What it is, such as turning centre.</summary>
    public string Name { get; private set; } = "";

    /// <summary>What it does, such as turning or grinding.</summary>
    public string Process { get; private set; } = "";

    /// <summary>Running hours a week, 0 to 168.</summary>
    public decimal WeeklyHours { get; private set; }

    public Delivery Delivery { get; private set; }

    public void Change(string name, string process, decimal weeklyHours, Delivery delivery)
    {
        Name = name;
        Process = process;
        WeeklyHours = weeklyHours;
        Delivery = delivery;
    }

    public void MoveTo(Guid areaId) => AreaId = areaId;
}

internal sealed class MachineConfiguration : IEntityTypeConfiguration<Machine>
{
    public void Configure(EntityTypeBuilder<Machine> builder)
    {
        builder.Property(m => m.Tag).HasMaxLength(Tags.MaximumLength);
        builder.Property(m => m.TagKey).HasMaxLength(Tags.MaximumLength);
        builder.HasIndex(m => m.TagKey).IsUnique();
        builder.Property(m => m.Name).HasMaxLength(120);
        builder.Property(m => m.Process).HasMaxLength(120);
        builder.HasOne<Area>().WithMany().HasForeignKey(m => m.AreaId).OnDelete(DeleteBehavior.Restrict);
    }
}
