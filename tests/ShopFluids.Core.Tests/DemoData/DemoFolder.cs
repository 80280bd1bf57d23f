using System.Text.Json.Nodes;
using ShopFluids.Testing;

namespace ShopFluids.Core.Tests.DemoData;

/// <summary>The demo's own data with a shorter history, so that a test need not live through 18 months.</summary>
internal sealed class DemoFolder : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("shopfluids-demo-");

    public DemoFolder(int weeks)
    {
        foreach (var file in Directory.GetFiles(System.IO.Path.Combine(Repository.Root, "demo-seed"), "*.json"))
        {
            File.Copy(file, System.IO.Path.Combine(_folder.FullName, System.IO.Path.GetFileName(file)));
        }

        var shop = System.IO.Path.Combine(_folder.FullName, "shop.json");
        var content = JsonNode.Parse(File.ReadAllText(shop)) ?? throw new InvalidDataException(shop);
        content["weeks"] = weeks;
        File.WriteAllText(shop, content.ToJsonString());
    }

    public string Path => _folder.FullName;

    public void Dispose() => _folder.Delete(recursive: true);
}
