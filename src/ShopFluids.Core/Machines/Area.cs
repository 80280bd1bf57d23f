using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.Machines;

/// <summary>A part of the shop floor, walked in one go.</summary>
public sealed class Area : Entity, ISetup
{
    private Area()
    {
    }

    public Area(Guid id, Guid siteId, string name, int walkOrder)
    {
        Id = id;
        SiteId = siteId;
        Name = name;
        WalkOrder = walkOrder;
    }

    public Guid SiteId { get; private set; }

    public string Name { get; private set; } = "";

    public int WalkOrder { get; private set; }

    public void Change(string name, int walkOrder) => (Name, WalkOrder) = (name, walkOrder);
}

internal sealed class AreaConfiguration : IEntityTypeConfiguration<Area>
{
    public void Configure(EntityTypeBuilder<Area> builder)
    {
        builder.Property(a => a.Name).HasMaxLength(120);
        builder.HasOne<Site>().WithMany().HasForeignKey(a => a.SiteId).OnDelete(DeleteBehavior.Restrict);
    }
}
