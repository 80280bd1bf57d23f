using System.Xml.Linq;

namespace ShopFluids.Architecture.Tests;

public sealed class ReferenceTests
{
    public static TheoryData<string, string[]> Allowed => new()
    {
        { "ShopFluids.Calculations", [] },
        { "ShopFluids.Rules", ["ShopFluids.Calculations"] },
        { "ShopFluids.Core", ["ShopFluids.Rules"] },
        { "ShopFluids.Data.Sqlite", ["ShopFluids.Core"] },
        { "ShopFluids.Data.Postgres", ["ShopFluids.Core"] },
        { "ShopFluids.Printing", ["ShopFluids.Core"] },
        { "ShopFluids.Web", ["ShopFluids.Core", "ShopFluids.Data.Postgres", "ShopFluids.Data.Sqlite", "ShopFluids.Printing"] },
    };

    [Theory, MemberData(nameof(Allowed))]
    public void Project_References_PointOnlyDownwards(string project, string[] allowed)
    {
        ArgumentNullException.ThrowIfNull(allowed);
        var references = References(project, "ProjectReference").Select(Path.GetFileNameWithoutExtension);
        Assert.Equal(allowed.Order(StringComparer.Ordinal), references.Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Projects_InSrc_AreTheKnownOnes() =>
        Assert.Equal(
            Allowed.Select(row => row.Data.Item1).Order(StringComparer.Ordinal),
            Directory.EnumerateDirectories(Repository.PathOf("src")).Select(d => Path.GetFileName(d)).Order(StringComparer.Ordinal));

    [Theory, InlineData("ShopFluids.Calculations"), InlineData("ShopFluids.Rules")]
    public void PureProject_Packages_None(string project) => Assert.Empty(References(project, "PackageReference"));

    [Theory, InlineData("Npgsql"), InlineData("Microsoft.Data.Sqlite"), InlineData("Microsoft.EntityFrameworkCore.Sqlite")]
    public void Core_Providers_AreUnknownToIt(string provider) =>
        Assert.DoesNotContain(typeof(Core.CoreServices).Assembly.GetReferencedAssemblies(), a => a.Name == provider);

    private static IEnumerable<string> References(string project, string element) =>
        XDocument.Load(Repository.PathOf($"src/{project}/{project}.csproj")).Descendants(element).Select(e => (string?)e.Attribute("Include") ?? "");
}
