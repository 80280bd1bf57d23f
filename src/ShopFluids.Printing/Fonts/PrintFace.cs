namespace ShopFluids.Printing.Fonts;

/// <summary>The faces of printed sheets.</summary>
public enum PrintFace
{
    Regular = 0,
    Bold = 1,

    /// <summary>For lots and fingerprints, where every character counts.</summary>
    Mono = 2,
}
