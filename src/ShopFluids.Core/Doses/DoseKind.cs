namespace ShopFluids.Core.Doses;

/// <summary>What a product is put in for.</summary>
public enum DoseKind : short
{
    Biocide = 1,
    Fungicide = 2,
    PhRaiser = 3,
    Defoamer = 4,

    /// <summary>Keeps the emulsion together, or makes it one again.</summary>
    Stabiliser = 5,
    Cleaner = 6,
    Other = 7,
}

/// <summary>How a product is measured out.</summary>
public enum DoseUnit : short
{
    Millilitre = 1,
    Gram = 2,
}

public static class DoseKinds
{
    /// <summary>
    /// It kills: the label's maximum and re-entry time are asked for, and that whoever gives it has label and safety data sheet at hand and is trained.
    /// </summary>
    public static bool IsBiocidal(DoseKind kind) => kind is DoseKind.Biocide or DoseKind.Fungicide;
}
