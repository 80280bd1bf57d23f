using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Board;
using ShopFluids.Core.Machines;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Machines;

public sealed class MachinePageQueryTests
{
    [Theory, EachDatabase]
    public async Task RunAsync_KnownTagInAnyCase_TellsItsSumpUseAndLots(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database, also: s => s.AddSingleton<MachinePageQuery>().AddSingleton<BoardQuery>());
        await shop.StoreAsync(Some.Reading());

        var page = await shop.Get<MachinePageQuery>().RunAsync("m-07", TestContext.Current.CancellationToken);

        Assert.NotNull(page);
        Assert.Equal("M-07", page.Machine.Tag);
        Assert.Equal([Some.SumpTag], page.Sumps.Select(s => s.Tag));
        Assert.False(page.SharesASump);
        Assert.Equal(12, Assert.Single(page.Months).FillLitres);
        Assert.Equal("L-1", Assert.Single(Assert.Single(page.Charges).Lots).Number);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_UnknownTag_IsNull(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database, also: s => s.AddSingleton<MachinePageQuery>().AddSingleton<BoardQuery>());

        Assert.Null(await shop.Get<MachinePageQuery>().RunAsync("M-99", TestContext.Current.CancellationToken));
    }
}
