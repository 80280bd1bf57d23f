using ShopFluids.Core.Database;
using ShopFluids.Core.People;
using ShopFluids.Core.Search;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Search;

/// <summary>Everything that has a name is found by any part of it, the same on both engines.</summary>
public sealed class SearchQueryTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory]
    [EachDatabase("S-07")]
    [EachDatabase("s-07")]
    [EachDatabase("s7")]
    [EachDatabase("s07")]
    [EachDatabase("-07")]
    [EachDatabase("emulsion s-")]
    public async Task Run_PartOfASump_FindsItWithItsMachineAndFluid(TestDatabase database, string text)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        var hit = Assert.Single(Of(await FindAsync(shop, text), SearchGroup.Sumps).Hits);

        Assert.Equal(("S-07", "M-07 Turning centre, Turning, Emulsion A"), (hit.Name, hit.Detail));
    }

    [Theory]
    [EachDatabase("turning CENTRE", SearchGroup.Machines, "M-07")]
    [EachDatabase("m-0", SearchGroup.Machines, "M-07")]
    [EachDatabase("EMUL", SearchGroup.Fluids, "Emulsion A")]
    [EachDatabase("mulsion", SearchGroup.Fluids, "Emulsion A")]
    [EachDatabase("l-1", SearchGroup.Lots, "L-1")]
    [EachDatabase("emulsion", SearchGroup.Lots, "L-1")]
    [EachDatabase("skim", SearchGroup.Tasks, "Skim")]
    [EachDatabase("ostrey", SearchGroup.People, "Marta Ostrey")]
    [EachDatabase("MART", SearchGroup.People, "Marta Ostrey")]
    [EachDatabase("sup1", SearchGroup.People, "Marta Ostrey")]
    public async Task Run_PartOfAName_FindsItInItsGroup(TestDatabase database, string text, SearchGroup group, string name)
    {
        await using var shop = await BusyAsync(database);

        var hits = Of(await FindAsync(shop, text), group);

        Assert.StartsWith(name, hits.Hits[0].Name, StringComparison.OrdinalIgnoreCase);
        if (group is SearchGroup.Lots or SearchGroup.Fluids or SearchGroup.Machines or SearchGroup.Tasks)
        {
            Assert.Equal([Some.SumpTag], hits.Hits[0].SumpTags);
        }
    }

    // Letters outside ASCII have two cases as well, and no engine of a database agrees with the other on them.
    [Theory]
    [EachDatabase("größe")]
    [EachDatabase("GRÖßE ÄTZ")]
    [EachDatabase("ätzer")]
    [EachDatabase("atzer")]
    [EachDatabase("ŻÓŁ")]
    public async Task Run_LettersWithAccents_AreFoundInEitherCase(TestDatabase database, string text)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        (await shop.Get<AddFluidHandler>().HandleAsync(Some.Fluid(Some.Id(), "Größe Ätzer żółty"), Some.Supervisor, Stop)).Done();

        Assert.Equal("Größe Ätzer żółty", Assert.Single(Of(await FindAsync(shop, text), SearchGroup.Fluids).Hits).Name);
    }

    [Theory]
    [EachDatabase("%")]
    [EachDatabase("_")]
    [EachDatabase("'; DROP TABLE x; --")]
    [EachDatabase("\\")]
    public async Task Run_SignsThatADatabaseReadsOtherwise_AreLettersLikeAny(TestDatabase database, string text)
    {
        await using var shop = await BusyAsync(database);

        Assert.Equal(0, (await FindAsync(shop, text)).Count);
    }

    [Theory]
    [EachDatabase("")]
    [EachDatabase("   ")]
    public async Task Run_Nothing_FindsNothing(TestDatabase database, string text)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        Assert.Empty((await FindAsync(shop, text)).Groups);
    }

    [Theory, EachDatabase]
    public async Task Run_WithoutLeaveToSeePeople_FindsNone(TestDatabase database)
    {
        await using var shop = await BusyAsync(database);

        Assert.DoesNotContain((await FindAsync(shop, "ostrey", withPeople: false)).Groups, g => g.Group == SearchGroup.People);
    }

    [Theory, EachDatabase]
    public async Task Run_ManyFit_TheBestComeFirstAndAllAreCounted(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        foreach (var name in new[] { "Old grinding oil", "Oil 7", "oil", "Soil", "Coil oil" })
        {
            (await shop.Get<AddFluidHandler>().HandleAsync(Some.Fluid(Some.Id(), name), Some.Supervisor, Stop)).Done();
        }

        var found = Of(await FindAsync(shop, "Oil", most: 4), SearchGroup.Fluids);

        Assert.Equal(5, found.Count);
        Assert.Equal(["oil", "Oil 7"], found.Hits.Take(2).Select(h => h.Name));
        Assert.Equal(["Coil oil", "Old grinding oil"], found.Hits.Skip(2).Select(h => h.Name).Order(StringComparer.Ordinal));
    }

    [Theory, EachDatabase]
    public async Task Run_LotOfADrainedCharge_IsFoundWithoutASump(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        (await shop.DrainAsync(shop.Now)).Done();

        Assert.Empty(Assert.Single(Of(await FindAsync(shop, "L-1"), SearchGroup.Lots).Hits).SumpTags);
    }

    [Theory, EachDatabase]
    public async Task Run_ThreeHundredSumps_AllThatFitAreCounted(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        for (var n = 100; n < 400; n++)
        {
            await shop.SumpAsync(Some.Sump(Some.Id(), shop.AreaId, $"S-{n}", $"M-{n}", walkOrder: n));
        }

        Assert.Equal(13, Of(await FindAsync(shop, "centre 29"), SearchGroup.Sumps).Count);
    }

    private static async Task<ShopFixture> BusyAsync(TestDatabase database)
    {
        var shop = await ShopFixture.OpenAsync(database);
        (await shop.Get<MakeAccountHandler>().HandleAsync(new MakeAccount(Some.Id(), "sup1", "Marta Ostrey", "ten signs and more", [Roles.Supervisor], "light"), Some.Supervisor, Stop)).Done();
        await shop.StepAsync(Some.Step(TaskKind.Skim));
        return shop;
    }

    private static Task<SearchResults> FindAsync(ShopFixture shop, string text, bool withPeople = true, int most = 50) =>
        new SearchQuery(shop.Get<ShopDatabase>(), shop.Get<SetupCache>(), shop.Get<ShopClock>())
            .RunAsync(new SearchRequest(text, withPeople, most), setup => new Sentences(setup.FormatFor(), setup), Stop);

    private static SearchHits Of(SearchResults results, SearchGroup group) => Assert.Single(results.Groups, g => g.Group == group);
}
