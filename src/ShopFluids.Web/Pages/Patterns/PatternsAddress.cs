namespace ShopFluids.Web.Pages.Patterns;

/// <summary>The address of the pattern table with what is chosen and ticked on it.</summary>
internal static class PatternsAddress
{
    public const string SumpField = "sump";
    public const string SeenField = "seen";

    public static string Of(string? sump, IEnumerable<string> seen)
    {
        var fields = (string.IsNullOrEmpty(sump) ? [] : new[] { (Name: SumpField, Value: sump) })
            .Concat(seen.Select(s => (Name: SeenField, Value: s)))
            .Select(f => $"{f.Name}={Uri.EscapeDataString(f.Value)}")
            .ToList();
        return fields.Count == 0 ? "patterns" : $"patterns?{string.Join('&', fields)}";
    }
}
