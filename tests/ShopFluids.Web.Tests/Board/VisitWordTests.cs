using ShopFluids.Core.Board;
using ShopFluids.Rules;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Pages.Board;
using Xunit;

namespace ShopFluids.Web.Tests.Board;

public sealed class VisitWordTests
{
    private static readonly DateOnly Day = new(2026, 3, 3);

    // Work without a time of its own takes some all the same.
    [Theory]
    [InlineData(new[] { 5, 20 }, "One visit, tomorrow, about 25 min")]
    [InlineData(new[] { 5, 0 }, "One visit, tomorrow, 5 min or more")]
    [InlineData(new[] { 0, 0 }, "One visit, tomorrow")]
    [InlineData(new[] { 5 }, null)]
    public async Task Of_Visit_SaysItsTimeAsFarAsItIsKnown(int[] minutes, string? expected)
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await ShopFixture.OpenAsync(database);
        var format = (await shop.SetupAsync()).FormatFor();
        var tasks = minutes.Select(m => new BoardTask(Some.Id(), TaskKind.Skim, "limit:odour", format.Calendar.EndOf(Day), Day, IsLate: false, IsOfPlan: false, null, null) { Minutes = m });

        Assert.Equal(expected, VisitWord.Of(new BoardVisit(Day, [.. tasks]), format, shop.Now));
    }
}
