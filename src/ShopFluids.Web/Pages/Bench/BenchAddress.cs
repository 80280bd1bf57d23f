namespace ShopFluids.Web.Pages.Bench;

/// <summary>Addresses of calculators: they hold every number, so that a link shows the same to whoever opens it.</summary>
public static class BenchAddress
{
    /// <summary>The name under which an address names the sump that the numbers came from.</summary>
    public const string Sump = "sump";

    public static string Of(string calculator) => $"bench/{calculator}";

    public static string Of(string calculator, string? sumpTag, IReadOnlyDictionary<string, string> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        var parts = values.Select(v => $"{v.Key}={Uri.EscapeDataString(v.Value)}").ToList();
        if (!string.IsNullOrEmpty(sumpTag))
        {
            parts.Insert(0, $"{Sump}={Uri.EscapeDataString(sumpTag)}");
        }

        return parts.Count == 0 ? Of(calculator) : $"{Of(calculator)}?{string.Join('&', parts)}";
    }
}
