using Microsoft.AspNetCore.StaticAssets;

namespace ShopFluids.Web.Shop;

/// <summary>
/// The addresses of our files with the mark of their content in them, so that a tablet keeps a file as long as it stays the same.
/// Razor documents outside the router do not get these by themselves.
/// </summary>
public sealed class ShopAssets(IEnumerable<EndpointDataSource> endpoints)
{
    private readonly Lazy<Dictionary<string, string>> _routes = new(() => endpoints
        .SelectMany(source => source.Endpoints)
        .Select(endpoint => endpoint.Metadata.GetMetadata<StaticAssetDescriptor>())
        .OfType<StaticAssetDescriptor>()
        .SelectMany(asset => asset.Properties.Where(p => p.Name == "label").Select(p => (Label: p.Value, asset.Route)))
        .GroupBy(asset => asset.Label, StringComparer.Ordinal)
        .ToDictionary(group => group.Key, group => group.First().Route, StringComparer.Ordinal));

    /// <summary>The marked route of a file such as css/base.css; the plain one where there is no other.</summary>
    public string Route(string file) => _routes.Value.GetValueOrDefault(file, file);
}
