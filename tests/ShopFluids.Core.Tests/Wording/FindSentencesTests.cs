using System.Globalization;
using ShopFluids.Core.Care.Finds;
using ShopFluids.Core.Wording;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Wording;

public sealed class FindSentencesTests
{
    [Theory]
    [InlineData(FindNames.OilLitres, 1.5, "", "1.5 L of oil taken off", "0.40 gal of oil taken off")]
    [InlineData(FindNames.OilLitres, 1.5, "belt worn", "1.5 L of oil taken off; belt worn", "0.40 gal of oil taken off; belt worn")]
    [InlineData(FindNames.FilterState, 1.0, "", "filter half full", "filter half full")]
    [InlineData(FindNames.FilterState, 3.0, "", "filter blocked", "filter blocked")]
    [InlineData(FindNames.SludgeMm, 25.0, "", "25 mm of sludge", "0.98 in of sludge")]
    [InlineData(FindNames.CirculatedMinutes, 60.0, "", "circulated for 60 min", "circulated for 60 min")]
    [InlineData("", null, "a hose leaks", "a hose leaks", "a hose leaks")]
    public async Task Found_EachKind_IsSaidInThePersonsUnits(string what, double? value, string note, string metric, string us)
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await ShopFixture.OpenAsync(database);
        var setup = await shop.SetupAsync();
        Sentences Say(UnitSystem units) => new(new ShopFormat(CultureInfo.GetCultureInfo("en-US"), units, setup.Calendar), setup);
        var find = new WorkFind(what, (decimal?)value, note);

        Assert.Equal(metric, Say(UnitSystem.Metric).Found(find));
        Assert.Equal(us, Say(UnitSystem.UsCustomary).Found(find));
    }
}
