using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Sheets;
using ShopFluids.Printing;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Pages.Sheets;
using ShopFluids.Web.Pages.Sheets.Jobs;
using Xunit;

namespace ShopFluids.Web.Tests.Sheets;

public sealed class HistoryFileTests
{
    private static readonly SheetSubject Sump = new("S-07", IsMachine: false, "S-07");
    private static readonly SheetSubject Machine = new("M-07", IsMachine: true, "M-07 Turning centre");

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task Of_SumpAndItsMachine_PrintsTheSumpOnceAndTellsEachPart(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        var told = new List<int>();

        var both = await Work(shop, Sump, Machine)(told.Add, Token);
        var one = await Work(shop, Sump)(_ => { }, Token);

        Assert.Equal([1, 2], told);
        Assert.NotNull(both.File);
        Assert.Equal(one.File, both.File);
    }

    [Theory, EachDatabase]
    public async Task Of_UnknownSump_SaysWhich(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);

        var made = await Work(shop, Sump, Sump with { Tag = "S-99" })(_ => { }, Token);

        Assert.Null(made.File);
        Assert.Contains("S-99", made.Fault, StringComparison.Ordinal);
    }

    [Theory, EachDatabase]
    public async Task Of_Cancelled_Stops(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        using var cancelling = new CancellationTokenSource();

        // After the first part its maker has had enough.
        var work = Work(shop, Sump, Machine)(_ => cancelling.Cancel(), cancelling.Token);

        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => work);
    }

    private static Task<ShopFixture> OpenAsync(TestDatabase database) => ShopFixture.OpenAsync(database, also: s => s.AddSingleton<HistorySheetQuery>().AddSingleton<HistoryFile>());

    private static SheetWork Work(ShopFixture shop, params SheetSubject[] subjects) => shop.Get<HistoryFile>().Of(subjects, null, null, PaperSize.A4, "Sup");
}
