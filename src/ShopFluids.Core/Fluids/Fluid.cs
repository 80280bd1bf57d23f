using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Core.Database;
using ShopFluids.Core.Record;

namespace ShopFluids.Core.Fluids;

public enum FluidKind : short
{
    StraightOil = 1,
    SolubleOil = 2,
    SemiSynthetic = 3,
    Synthetic = 4,
}

/// <summary>What the data sheet of a concentrate says, as typed.</summary>
/// <param name="RefractometerFactor">% v/v for each Brix; over 0, at most 10.</param>
/// <param name="TitrationFactor">% v/v for each mL of titrant; null when unknown.</param>
/// <param name="PremixMinimumPercent">The weakest premix that may be poured.</param>
/// <param name="PremixMaximumPercent">The strongest premix that may be poured.</param>
/// <param name="ShelfLifeDays">From the sheet; gives the expiry proposed at receipt.</param>
/// <param name="OpenedLifeDays">For how many days a container keeps once opened; null where the sheet does not say.</param>
public sealed record FluidData(
    string Name,
    FluidKind Kind,
    decimal RefractometerFactor,
    decimal? TitrationFactor,
    decimal TargetPercent,
    decimal PremixMinimumPercent,
    decimal PremixMaximumPercent,
    int ShelfLifeDays,
    string? WasteCode,
    string? SafetySheetPlace,
    string? Biocide,
    int? OpenedLifeDays = null);

/// <summary>A concentrate as sold to the shop.</summary>
public sealed class Fluid : Entity, ISetup
{
    private Fluid()
    {
    }

    public Fluid(Guid id, FluidData data)
    {
        Id = id;
        Change(data);
    }

    public string Name { get; private set; } = "";

    public string NameKey { get; private set; } = "";

    public FluidKind Kind { get; private set; }

    public decimal RefractometerFactor { get; private set; }

    public decimal? TitrationFactor { get; private set; }

    public decimal TargetPercent { get; private set; }

    public decimal PremixMinimumPercent { get; private set; }

    public decimal PremixMaximumPercent { get; private set; }

    public int ShelfLifeDays { get; private set; }

    public string? WasteCode { get; private set; }

    public string? SafetySheetPlace { get; private set; }

    public string? Biocide { get; private set; }

    public int? OpenedLifeDays { get; private set; }

    /// <summary>By which names are told apart, whatever their case.</summary>
    public static string KeyOf(string name) => name.Trim().ToUpperInvariant();

    public void Change(FluidData data)
    {
        Name = data.Name;
        NameKey = KeyOf(data.Name);
        Kind = data.Kind;
        RefractometerFactor = data.RefractometerFactor;
        TitrationFactor = data.TitrationFactor;
        TargetPercent = data.TargetPercent;
        PremixMinimumPercent = data.PremixMinimumPercent;
        PremixMaximumPercent = data.PremixMaximumPercent;
        ShelfLifeDays = data.ShelfLifeDays;
        WasteCode = data.WasteCode;
        SafetySheetPlace = data.SafetySheetPlace;
        Biocide = data.Biocide;
        OpenedLifeDays = data.OpenedLifeDays;
    }
}

internal sealed class FluidConfiguration : IEntityTypeConfiguration<Fluid>
{
    public void Configure(EntityTypeBuilder<Fluid> builder)
    {
        builder.Property(f => f.Name).HasMaxLength(120);
        builder.Property(f => f.NameKey).HasMaxLength(120);
        builder.HasIndex(f => f.NameKey).IsUnique();
        builder.Property(f => f.WasteCode).HasMaxLength(20);
        builder.Property(f => f.SafetySheetPlace).HasMaxLength(200);
        builder.Property(f => f.Biocide).HasMaxLength(120);
        builder.Property(f => f.OpenedLifeDays).CameLater();
    }
}
