using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Patterns;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Sumps;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Patterns;

/// <summary>What the pages say of causes: after saving, on the sump's page, and on the table's own.</summary>
public sealed class PatternPagesTests
{
    private static Task<ShopFixture> OpenAsync(TestDatabase database) =>
        ShopFixture.OpenAsync(database, also: s => s.AddSingleton<SavedPageQuery>().AddSingleton<SumpPageQuery>().AddSingleton<PatternPageQuery>());

    [Theory, EachDatabase]
    public async Task SavedAndSumpPage_SomethingIsOff_NameTheSameCauses(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        var outcome = await shop.StoreAsync(Some.Reading(brix: 3, levelMm: 250));

        var saved = (await shop.Get<SavedPageQuery>().RunAsync("S-07", outcome.ReadingId, TestContext.Current.CancellationToken)).Done().Causes;
        var page = Assert.IsType<SumpPage>(await shop.Get<SumpPageQuery>().RunAsync("S-07", TestContext.Current.CancellationToken)).Causes;

        Assert.NotNull(saved);
        Assert.NotNull(page);
        Assert.Contains("low-concentration", saved.Symptoms);
        Assert.Contains("weak-top-up", saved.Causes.Select(c => c.Cause));
        Assert.Equal(saved.Causes.Select(Counts), page.Causes.Select(Counts));
        Assert.Equal(saved.Next, page.Next);
    }

    [Theory, EachDatabase]
    public async Task Pages_AllIsWell_SayNothing(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        var outcome = await shop.StoreAsync(Some.Reading());

        Assert.Null((await shop.Get<SavedPageQuery>().RunAsync("S-07", outcome.ReadingId, TestContext.Current.CancellationToken)).Done().Causes);
        Assert.Empty(Assert.IsType<SumpPage>(await shop.Get<SumpPageQuery>().RunAsync("S-07", TestContext.Current.CancellationToken)).Causes?.Causes ?? []);
    }

    [Theory, EachDatabase]
    public async Task SavedPage_ReadAgainSince_SaysNothingAnyMore(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        var first = await shop.StoreAsync(Some.Reading(brix: 3, levelMm: 250));
        shop.Clock.Advance(TimeSpan.FromHours(1));
        await shop.StoreAsync(Some.Reading(brix: 3, levelMm: 250, takenAt: shop.Now));

        Assert.Null((await shop.Get<SavedPageQuery>().RunAsync("S-07", first.ReadingId, TestContext.Current.CancellationToken)).Done().Causes);
    }

    [Theory, EachDatabase]
    public async Task PatternPage_RustSeenAtALeanSump_SaysThatItIsLean(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 3, levelMm: 250));

        var page = await shop.Get<PatternPageQuery>().RunAsync("s-07", ["rust", "no-such-symptom"], TestContext.Current.CancellationToken);
        var apart = await shop.Get<PatternPageQuery>().RunAsync(null, ["rust"], TestContext.Current.CancellationToken);

        Assert.Equal("S-07", page.Sump);
        Assert.Contains("S-07", page.SumpTags);
        Assert.Contains("rust", page.Causes.Symptoms);
        Assert.NotEmpty(Assert.Single(page.Causes.Causes, c => c.Cause == "too-lean").For);
        Assert.Null(apart.Sump);
        Assert.Empty(Assert.Single(apart.Causes.Causes, c => c.Cause == "too-lean").For);
    }

    private static (string, int, int, int) Counts(Rules.Patterns.RankedCause cause) => (cause.Cause, cause.For.Count, cause.Against.Count, cause.NotKnown.Count);
}
