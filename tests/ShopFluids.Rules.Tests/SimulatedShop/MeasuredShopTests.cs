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
        var page = Repository.PathOf("docs", "rules", "measured.md");
        if (Environment.GetEnvironmentVariable("SHOPFLUIDS_WRITE_MEASURED") is not null)
        {
            File.WriteAllText(page, Shop.Value.ToMarkdown());
        }

        Assert.Equal(Shop.Value.ToMarkdown(), File.ReadAllText(page).ReplaceLineEndings("\n"));
    }
}
