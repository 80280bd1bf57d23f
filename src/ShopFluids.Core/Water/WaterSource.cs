using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.Water;

/// <summary>Make-up water: what the refractometer shows for it and what it carries in.</summary>
public sealed class WaterSource : Entity, ISetup
{
    private WaterSource()
    {
    }

    public WaterSource(Guid id, string name, decimal zeroBrix, decimal? hardnessMgPerLitre, decimal? nitrateMgPerLitre, decimal? nitriteMgPerLitre)
    {
        Id = id;
        Name = name;
        ZeroBrix = zeroBrix;
        HardnessMgPerLitre = hardnessMgPerLitre;
        NitrateMgPerLitre = nitrateMgPerLitre;
        NitriteMgPerLitre = nitriteMgPerLitre;
    }

    public string Name { get; private set; } = "";

    /// <summary>What the refractometer shows for this water, Brix.</summary>
    public decimal ZeroBrix { get; private set; }

    /// <summary>mg/L as CaCO3.</summary>
    public decimal? HardnessMgPerLitre { get; private set; }

    public decimal? NitrateMgPerLitre { get; private set; }

    public decimal? NitriteMgPerLitre { get; private set; }

    public void Change(string name, decimal zeroBrix, decimal? hardnessMgPerLitre, decimal? nitrateMgPerLitre, decimal? nitriteMgPerLitre) =>
        (Name, ZeroBrix, HardnessMgPerLitre, NitrateMgPerLitre, NitriteMgPerLitre) = (name, zeroBrix, hardnessMgPerLitre, nitrateMgPerLitre, nitriteMgPerLitre);
}

internal sealed class WaterSourceConfiguration : IEntityTypeConfiguration<WaterSource>
{
    public void Configure(EntityTypeBuilder<WaterSource> builder) => builder.Property(w => w.Name).HasMaxLength(120);
}
