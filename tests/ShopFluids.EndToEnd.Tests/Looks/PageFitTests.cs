using ShopFluids.EndToEnd.Tests.Browser;
using ShopFluids.EndToEnd.Tests.Server;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.Looks;

/// <summary>No page is wider than its window, and none breaks the content policy, asks another host or lets a script fail.</summary>
[Collection(SqliteDemoTests.Name)]
public sealed class PageFitTests(SqliteDemo demo, Chromium chromium)
{
    [Theory, EveryPage]
    public async Task Page_AtEveryWidth_FitsItsWindowAndKeepsThePolicy(string name)
    {
        await using var visit = await CheckedPage.Named(name).OpenAsync(demo, chromium);
        var tooWide = await PageWidth.OverflowsAsync(visit);
        Assert.True(tooWide.Count == 0, string.Join('\n', tooWide));
        visit.ExpectNoFaults();
    }
}
