namespace ShopFluids.Rules;

/// <summary>Codes of the parameters that the shipped rules know by name. A shop may add others; limits work on any code.</summary>
public static class ParameterCodes
{
    /// <summary>Concentration of product in the mix, % v/v, by refractometer or titration.</summary>
    public const string Concentration = "concentration";

    /// <summary>pH of the mix.</summary>
    public const string Ph = "ph";

    /// <summary>Level above the sump floor, mm, pump stopped.</summary>
    public const string Level = "level";

    /// <summary>Fluid temperature, °C.</summary>
    public const string Temperature = "temperature";

    /// <summary>Surface covered by tramp oil, %.</summary>
    public const string TrampOil = "tramp-oil";

    /// <summary>Odour in words: 0 none, 1 slight, 2 sour, 3 rotten egg.</summary>
    public const string Odour = "odour";

    /// <summary>Foam in words: 0 none, 1 little, 2 much, 3 over the edge.</summary>
    public const string Foam = "foam";

    /// <summary>Fines and sludge in words: 0 none, 1 film, 2 layer, 3 thick layer.</summary>
    public const string Fines = "fines";

    /// <summary>Bacteria as log10 of CFU/mL, from a dip slide.</summary>
    public const string Bacteria = "bacteria";

    /// <summary>Nitrite, mg/L.</summary>
    public const string Nitrite = "nitrite";

    /// <summary>Nitrate, mg/L.</summary>
    public const string Nitrate = "nitrate";

    /// <summary>Hardness, mg/L as CaCO3.</summary>
    public const string Hardness = "hardness";

    /// <summary>Electrical conductivity, µS/cm.</summary>
    public const string Conductivity = "conductivity";

    /// <summary>Chloride, mg/L.</summary>
    public const string Chloride = "chloride";

    /// <summary>Whether less of it is always better, so that "high" says nothing that "bad" does not.</summary>
    /// <param name="code">A parameter's code.</param>
    public static bool IsBadOnlyHigh(string code) => code is Odour or Foam or Fines or TrampOil or Bacteria;
}
