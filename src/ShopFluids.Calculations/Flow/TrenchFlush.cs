using ShopFluids.Calculations.Volumes;

namespace ShopFluids.Calculations.Flow;

/// <summary>What is machined, for the flush of a chip trench.</summary>
public enum TrenchMaterial
{
    /// <summary>Aluminium: 1.5 to 2 US gal/min per foot.</summary>
    Aluminium = 0,

    /// <summary>Cast iron: 2 to 2.5 US gal/min per foot.</summary>
    CastIron = 1,

    /// <summary>Steel: 2.5 to 5 US gal/min per foot.</summary>
    Steel = 2,
}

/// <summary>
/// Flush for a chip trench, by the table of the ORC guide "Management of the Metal Removal Fluid Environment" (1999), How to Size (read).
/// </summary>
public static class TrenchFlush
{
    private const double MillimetresPerFoot = 12 * LengthUnits.MillimetresPerInch;

    /// <summary>Least and most flow for a trench.</summary>
    /// <param name="material">One of the named materials.</param>
    /// <param name="lengthMetres">0 to 10 000 m.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static (FlowRate Low, FlowRate High) Flow(TrenchMaterial material, double lengthMetres)
    {
        var feet = Require.Between(lengthMetres, 0, 10_000, "m") * 1000 / MillimetresPerFoot;
        var (low, high) = material switch
        {
            TrenchMaterial.Aluminium => (1.5, 2.0),
            TrenchMaterial.CastIron => (2.0, 2.5),
            TrenchMaterial.Steel => (2.5, 5.0),
            _ => throw new ArgumentOutOfRangeException(nameof(material), material, "Accepted are the named materials."),
        };
        return (FlowRate.FromUsGallonsPerMinute(low * feet), FlowRate.FromUsGallonsPerMinute(high * feet));
    }
}
