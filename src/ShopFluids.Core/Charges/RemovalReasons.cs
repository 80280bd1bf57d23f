namespace ShopFluids.Core.Charges;

/// <summary>Why fluid was taken out, as stored; the word for it comes from the texts.</summary>
public static class RemovalReasons
{
    /// <summary>To make room for an adjustment.</summary>
    public const string Swap = "swap";

    /// <summary>The end of the charge.</summary>
    public const string Drain = "drain";
}
