namespace ShopFluids.Rules.Tests.SimulatedShop;

/// <summary>How good the rules are, against targets, and that the page says so.</summary>
public sealed class MeasuredShopTests
{
    private static readonly Lazy<MeasuredShop> Shop = new(MeasuredShop.Run);

    [Fact]
    public void Run_HealthySumps_AreFlaggedFalselyAtMostOnceInFiveMonths() =>
        Assert.True(Shop.Value.FalseFlagsPerSumpMonth <= 0.2, Shop.Value.ToMarkdown());

    [Fact]
    public void Run_EveryFault_IsFoundNearlyAlways() =>
        Assert.All(Shop.Value.Faults, f => Assert.True(f.Found >= 0.95 * f.Put, Shop.Value.ToMarkdown()));

    [Fact]
    public void Run_EveryFault_IsFoundSoonAfterItShows() =>
        Assert.All(Shop.Value.Faults, f => Assert.True(f.MedianReadings <= 2, Shop.Value.ToMarkdown()));

    [Fact]
    public void Page_OfTheMeasurement_SaysWhatTheRulesGive()
    {
        var page = Path.Combine(Repository(), "docs", "rules", "measured.md");
        if (Environment.GetEnvironmentVariable("SHOPFLUIDS_WRITE_MEASURED") is not null)
        {
            File.WriteAllText(page, Shop.Value.ToMarkdown());
        }

        Assert.Equal(Shop.Value.ToMarkdown(), File.ReadAllText(page).ReplaceLineEndings("\n"));
    }

    private static string Repository()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "ShopFluids.sln")))
        {
            folder = folder.Parent ?? throw new InvalidOperationException("The tests do not lie in the repository.");
        }

        return folder.FullName;
    }
}
