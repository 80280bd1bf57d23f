using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.Limits;

public enum ParameterScale : short
{
    /// <summary>A number in a unit.</summary>
    Number = 0,

    /// <summary>A word of a short ladder, 0 the best.</summary>
    Words = 1,

    /// <summary>An order of magnitude: log10.</summary>
    Magnitude = 2,
}

/// <summary>Something that is measured. Shipped ones can be changed and others added.</summary>
public sealed class Parameter : ISetup, IVersioned
{
    private Parameter()
    {
    }

    public Parameter(string code, int order, ParameterScale scale, string unit, int decimals, decimal plausibleLow, decimal plausibleHigh, decimal? usualLow, decimal? usualHigh, decimal? unlikelyStep, decimal accuracy)
    {
        Code = code;
        Order = order;
        Scale = scale;
        Unit = unit;
        Decimals = decimals;
        PlausibleLow = plausibleLow;
        PlausibleHigh = plausibleHigh;
        UsualLow = usualLow;
        UsualHigh = usualHigh;
        UnlikelyStep = unlikelyStep;
        Accuracy = accuracy;
    }

    /// <summary>One of the shipped codes or the shop's own.</summary>
    public string Code { get; private set; } = "";

    /// <summary>The shop's own name; null for a shipped parameter, whose name comes from the texts.</summary>
    public string? Name { get; private set; }

    public int Order { get; private set; }

    public ParameterScale Scale { get; private set; }

    /// <summary>Canonical unit, such as % or mm; empty for pH and words.</summary>
    public string Unit { get; private set; } = "";

    /// <summary>Decimals of its resolution, 0 to 4.</summary>
    public int Decimals { get; private set; }

    /// <summary>A value outside is refused.</summary>
    public decimal PlausibleLow { get; private set; }

    public decimal PlausibleHigh { get; private set; }

    /// <summary>A value outside is asked about once.</summary>
    public decimal? UsualLow { get; private set; }

    public decimal? UsualHigh { get; private set; }

    /// <summary>A larger step from the last value is asked about once.</summary>
    public decimal? UnlikelyStep { get; private set; }

    /// <summary>Half width of its uncertainty where no instrument is named, in its unit.</summary>
    public decimal Accuracy { get; private set; }

    public long Version { get; private set; }
}

internal sealed class ParameterConfiguration : IEntityTypeConfiguration<Parameter>
{
    public void Configure(EntityTypeBuilder<Parameter> builder)
    {
        builder.HasKey(p => p.Code);
        builder.Property(p => p.Code).HasMaxLength(40);
        builder.Property(p => p.Name).HasMaxLength(80);
        builder.Property(p => p.Unit).HasMaxLength(20);
    }
}
