using System.Diagnostics;
using Microsoft.EntityFrameworkCore;
using Microsoft.Playwright;
using ShopFluids.Core.Photos;
using ShopFluids.Core.Photos.Pictures;
using ShopFluids.Core.Wording;
using ShopFluids.EndToEnd.Tests.Browser;
using ShopFluids.EndToEnd.Tests.Server;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Pictures;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.Entering;

/// <summary>A photo goes where its reading goes: into the tablet's outbox, through questions and refusals, and once into the shop.</summary>
public sealed class PhotoPathTests(Chromium chromium)
{
    private const string Enter = $"/enter/{Some.SumpTag}";
    private static readonly TimeSpan Patience = TimeSpan.FromMilliseconds(Visit.PatienceMilliseconds);

    [Fact]
    public async Task Save_WithPhoto_IsTurnedAndMadeCleanOnTheTabletAndShownAfterwards()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database);
        await using var tablet = await OpenAsync(shop);

        await ChooseAsync(tablet, SamplePicture.TalkativeJpeg(6));
        await Assertions.Expect(tablet.Page.Locator("#photo-say")).ToContainTextAsync("kB");
        await new EntryPage(tablet).TypeAsync("8.0", "9.0", "300");
        await new EntryPage(tablet).SaveForSureAsync();

        var photo = Assert.Single(await PhotosAsync(database));
        Assert.Equal((PictureKind.Jpeg, 1, SamplePicture.Height, SamplePicture.Width), (photo.Kind, photo.Orientation, photo.WidthPixels, photo.HeightPixels));
        var image = tablet.Page.Locator(".shot img");
        Assert.True(await image.EvaluateAsync<bool>("i => i.decode().then(() => i.naturalWidth > 0)"));
        Assert.Contains(Some.SumpTag, await image.GetAttributeAsync("alt") ?? "", StringComparison.Ordinal);
        tablet.ExpectNoFaults();
    }

    [Fact]
    public async Task Save_LargePicture_IsMadeSmallOnTheTablet()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database);
        await using var tablet = await OpenAsync(shop);
        var large = await tablet.Page.EvaluateAsync<string>("""
            () => { const c = document.createElement('canvas'); c.width = 4000; c.height = 3000; c.getContext('2d').fillRect(0, 0, 2000, 3000); return c.toDataURL('image/png').split(',')[1]; }
            """);

        await ChooseAsync(tablet, Convert.FromBase64String(large));
        await Assertions.Expect(tablet.Page.Locator("#photo-say")).ToContainTextAsync("kB");
        await new EntryPage(tablet).TypeAsync("8.0", "9.0", "300");
        await new EntryPage(tablet).SaveForSureAsync();

        var photo = Assert.Single(await PhotosAsync(database));
        Assert.Equal((1600, 1200), (photo.WidthPixels, photo.HeightPixels));
    }

    [Fact]
    public async Task Save_WithoutConnection_WaitsWithItsPhotoAndArrivesOnce()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database);
        await using var tablet = await OpenAsync(shop);
        await ChooseAsync(tablet, SamplePicture.Jpeg);
        await Assertions.Expect(tablet.Page.Locator("#photo-say")).ToContainTextAsync("kB");
        await new EntryPage(tablet).TypeAsync("8.2", "9.0", "300");
        await tablet.Page.Context.SetOfflineAsync(true);
        await tablet.Page.GetByRole(AriaRole.Button, new() { Name = Texts.Entry_Save, Exact = true }).ClickAsync();
        await Assertions.Expect(tablet.Page.Locator("#kept")).ToBeVisibleAsync();
        Assert.Empty(await PhotosAsync(database));

        await tablet.Page.Context.SetOfflineAsync(false);

        await EventuallyAsync(async () => (await PhotosAsync(database)).Count > 0);
        await Assertions.Expect(tablet.Page.Locator("#link")).ToBeHiddenAsync();
        Assert.Single(await PhotosAsync(database));
        var (exitCode, output) = await shop.VerifyAsync();
        Assert.True(exitCode == 0, output);
    }

    // The page that asks is another document: the photo comes back into it from the tablet.
    [Fact]
    public async Task Save_AskedFirst_KeepsThePhotoThroughTheQuestion()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database);
        await using var tablet = await OpenAsync(shop);
        await ChooseAsync(tablet, SamplePicture.Jpeg);
        await Assertions.Expect(tablet.Page.Locator("#photo-say")).ToContainTextAsync("kB");
        var entry = new EntryPage(tablet);
        await entry.TypeAsync("24", "9.0", "300");

        await entry.SaveAsync();
        await Assertions.Expect(entry.Keep.First).ToBeVisibleAsync();
        await Assertions.Expect(tablet.Page.Locator("#photo-shown")).ToBeVisibleAsync();
        await Assertions.Expect(tablet.Page.Locator("#photo-again")).ToHaveCountAsync(0);
        await ReadyAsync(tablet.Page);
        while (await entry.Keep.CountAsync() > 0)
        {
            await entry.MoveOnAsync(() => entry.Keep.First.ClickAsync());
        }

        await tablet.Page.WaitForURLAsync("**/saved/**");
        Assert.Single(await PhotosAsync(database));
    }

    [Fact]
    public async Task Choose_PageIsLeft_ComesBackUntilItIsThrownAway()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database);
        await using var tablet = await OpenAsync(shop);
        await ChooseAsync(tablet, SamplePicture.Jpeg);
        await Assertions.Expect(tablet.Page.Locator("#photo-shown")).ToBeVisibleAsync();

        await tablet.GoAsync("/round");
        await tablet.GoAsync(Enter);
        await ReadyAsync(tablet.Page);
        await Assertions.Expect(tablet.Page.Locator("#photo-shown")).ToBeVisibleAsync();

        await tablet.Page.Locator("#photo-off").ClickAsync();
        await Assertions.Expect(tablet.Page.Locator("#photo-shown")).ToBeHiddenAsync();
        await tablet.GoAsync(Enter);
        await ReadyAsync(tablet.Page);
        await Assertions.Expect(tablet.Page.Locator("#photo-shown")).ToBeHiddenAsync();
    }

    [Fact]
    public async Task Choose_FileThatIsNoPicture_IsRefusedOnTheTabletAndAllElseStays()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database);
        await using var tablet = await OpenAsync(shop);
        var entry = new EntryPage(tablet);
        await entry.TypeAsync("8.0", "9.0", "300");

        await ChooseAsync(tablet, "no picture at all"u8.ToArray());

        await Assertions.Expect(tablet.Page.Locator("#photo-say")).ToHaveTextAsync(Texts.Entry_PhotoUnreadable);
        await Assertions.Expect(entry.Concentration).ToHaveValueAsync("8.0");
        await entry.SaveForSureAsync();
        Assert.Empty(await PhotosAsync(database));
    }

    private async Task<Visit> OpenAsync(SmallShop shop)
    {
        var tablet = await Visit.OpenAsync(chromium, shop.Server.Address);
        await SignIn.AsAsync(tablet, "op", SmallShop.Password);
        await tablet.GoAsync(Enter);
        await ReadyAsync(tablet.Page);
        return tablet;
    }

    private static Task ChooseAsync(Visit tablet, byte[] file) =>
        tablet.Page.Locator("#photo").SetInputFilesAsync(new FilePayload { Name = "photo.jpg", MimeType = "image/jpeg", Buffer = file });

    private static async Task ReadyAsync(IPage page) => await page.WaitForFunctionAsync("() => 'ready' in document.body.dataset");

    private static async Task<List<Photo>> PhotosAsync(TestDatabase database)
    {
        await using var db = database.Open();
        return await db.Photos.AsNoTracking().ToListAsync(TestContext.Current.CancellationToken);
    }

    private static async Task EventuallyAsync(Func<Task<bool>> isSo)
    {
        var waited = Stopwatch.StartNew();
        while (!await isSo())
        {
            Assert.True(waited.Elapsed < Patience, "It did not come about in time.");
            await Task.Delay(100);
        }
    }
}
