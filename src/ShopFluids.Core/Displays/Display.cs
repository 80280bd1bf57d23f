using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Core.Database;
using ShopFluids.Core.Machines;
using ShopFluids.Core.People.Stations;

namespace ShopFluids.Core.Displays;

/// <summary>A screen in the shop that shows the board to everybody and takes nothing from anybody.</summary>
public sealed class Display : Entity
{
    private Display()
    {
    }

    public Display(Guid id, string name, string theme, Guid? areaId, DateTime madeAtUtc)
    {
        Id = id;
        Name = name;
        Theme = theme;
        AreaId = areaId;
        MadeAtUtc = madeAtUtc;
    }

    public string Name { get; private set; } = "";

    /// <summary>light, dark or shop: by the light of the hall.</summary>
    public string Theme { get; private set; } = "shop";

    /// <summary>The only area that it shows; null: all in turn.</summary>
    public Guid? AreaId { get; private set; }

    public DateTime MadeAtUtc { get; private set; }

    public DateTime? RevokedAtUtc { get; private set; }

    internal void Change(string name, string theme, Guid? areaId) => (Name, Theme, AreaId) = (name, theme, areaId);

    internal void Revoke(DateTime atUtc) => RevokedAtUtc = atUtc;
}

/// <summary>What opens the wall for a display. Apart from the display itself: secrets have no place in the record.</summary>
public sealed class DisplayKey
{
    private DisplayKey()
    {
    }

    public DisplayKey(Guid displayId, string hash) => (DisplayId, Hash) = (displayId, hash);

    public Guid DisplayId { get; private set; }

    /// <summary>SHA-256 of the secret in the display's link, in lower-case hex. The secret has 256 bits of chance, so a slow hash adds nothing.</summary>
    public string Hash { get; private set; } = "";

    internal void Renew(string hash) => Hash = hash;
}

internal sealed class DisplayConfiguration : IEntityTypeConfiguration<Display>, IEntityTypeConfiguration<DisplayKey>
{
    public void Configure(EntityTypeBuilder<Display> builder)
    {
        builder.Property(d => d.Name).HasMaxLength(StationRules.MaximumNameLength);
        builder.Property(d => d.Theme).HasMaxLength(10);
        builder.HasOne<Area>().WithMany().HasForeignKey(d => d.AreaId).OnDelete(DeleteBehavior.Restrict);
    }

    public void Configure(EntityTypeBuilder<DisplayKey> builder)
    {
        builder.HasKey(k => k.DisplayId);
        builder.Property(k => k.DisplayId).ValueGeneratedNever();
        builder.Property(k => k.Hash).HasMaxLength(64);
        builder.HasIndex(k => k.Hash).IsUnique();
        builder.HasOne<Display>().WithOne().HasForeignKey<DisplayKey>(k => k.DisplayId).OnDelete(DeleteBehavior.Cascade);
    }
}
