namespace ShopFluids.Core.Database;

/// <summary>Check constraints that read the same on both engines. SQLite keeps decimals as text, so they are cast before comparing.</summary>
internal static class Checks
{
    public static string NotNegative(string column) => $"CAST(\"{column}\" AS numeric) >= 0";
}
