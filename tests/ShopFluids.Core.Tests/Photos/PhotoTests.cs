using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.People;
using ShopFluids.Core.Photos;
using ShopFluids.Core.Photos.Pictures;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Pictures;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Photos;

/// <summary>A photo is stored with its reading or not at all, once, and whoever changes its bytes is found out.</summary>
public sealed class PhotoTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task Handle_ReadingWithPhoto_StoresBothOnce(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var command = Some.Reading() with { Photo = SamplePicture.Clean(SamplePicture.TalkativeJpeg(6)) };

        var first = (await shop.RecordAsync(command)).Done();
        var second = (await shop.RecordAsync(command)).Done();

        Assert.Equal((true, false), (first.IsNew, second.IsNew));
        var photo = await shop.ReadAsync(db => db.Photos.SingleAsync(Stop));
        Assert.Equal((command.Id, shop.SumpId, PictureKind.Jpeg, 6, SamplePicture.Width, SamplePicture.Height), (photo.Id, photo.SumpId, photo.Kind, photo.Orientation, photo.WidthPixels, photo.HeightPixels));
        var file = await shop.Get<PhotosQuery>().FileAsync(command.Id, Stop);
        Assert.NotNull(file);
        Assert.Equal((command.Photo.Sha256, photo.Sha256), (file.Sha256, file.Sha256));
        Assert.Equal(command.Photo.Bytes.ToArray(), file.Bytes);
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task Handle_SameIdWithAnotherPhotoOrNone_IsOtherContent(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var command = Some.Reading() with { Photo = SamplePicture.Clean() };
        await shop.StoreAsync(command);
        var before = await shop.FootprintAsync();

        Assert.IsType<OtherContentForId>((await shop.RecordAsync(command with { Photo = SamplePicture.Clean(SamplePicture.Png) })).Error);
        Assert.IsType<OtherContentForId>((await shop.RecordAsync(command with { Photo = null })).Error);
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory, EachDatabase]
    public async Task Handle_RefusedReading_StoresNoPhoto(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var before = await shop.FootprintAsync();

        Assert.NotNull((await shop.RecordAsync(Some.Reading(ph: 15) with { Photo = SamplePicture.Clean() })).Error);

        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory, EachDatabase]
    public async Task Handle_ReadingWithPhoto_RecordsItsHashAndNotItsBytes(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var picture = SamplePicture.Clean();

        await shop.StoreAsync(Some.Reading() with { Photo = picture });

        var entry = await shop.ReadAsync(db => db.RecordEntries.OrderByDescending(e => e.Sequence).FirstAsync(Stop));
        Assert.Equal(ActCodes.ReadingStored, entry.Code);
        Assert.Contains(picture.Sha256, entry.Changes, StringComparison.Ordinal);
        Assert.DoesNotContain(nameof(PhotoContent), entry.Changes, StringComparison.Ordinal);
    }

    [Theory]
    [EachDatabase("UPDATE", VerifyProblem.RowChanged)]
    [EachDatabase("DELETE", VerifyProblem.RowMissing)]
    public async Task Verify_BytesChangedOrGone_NamesThem(TestDatabase database, string how, VerifyProblem problem)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var command = Some.Reading() with { Photo = SamplePicture.Clean() };
        await shop.StoreAsync(command);
        await using var sql = await RawSql.OpenAsync(database);

        Assert.Equal(1, how == "DELETE"
            ? await sql.ExecuteAsync("""DELETE FROM "PhotoContents" """)
            : await sql.ExecuteAsync("""UPDATE "PhotoContents" SET "Bytes" = @value""", SamplePicture.Png));

        Assert.Equal([new VerifyFinding(problem, $"PhotoContent {command.Id:D}")], (await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task Pages_ReadingsWithPhotos_ListThemNewestFirstWithWhoTookThem(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var person = await PersonAsync(shop);
        var earlier = Some.Reading(takenAt: Some.Start.AddHours(-2)) with { Photo = SamplePicture.Clean() };
        var later = Some.Reading(takenAt: Some.Start.AddHours(-1)) with { Photo = SamplePicture.Clean(SamplePicture.WebP) };
        await shop.StoreAsync(later, person);
        await shop.StoreAsync(earlier, person);
        var plain = Some.Reading();
        await shop.StoreAsync(plain, person);

        var page = await new SumpPageQuery(shop.Get<ShopDatabase>(), shop.Get<SetupCache>(), shop.Get<ShopClock>()).RunAsync(Some.SumpTag, Stop);
        var saved = new SavedPageQuery(shop.Get<ShopDatabase>(), shop.Get<SetupCache>(), shop.Get<ShopClock>());

        Assert.Equal([(later.Id, "Op One"), (earlier.Id, "Op One")], page?.Photos.Select(p => (p.ReadingId, p.By)));
        Assert.Equal(later.Id, (await saved.RunAsync(Some.SumpTag, later.Id, Stop)).Done().Photo?.ReadingId);
        Assert.Null((await saved.RunAsync(Some.SumpTag, plain.Id, Stop)).Done().Photo);
        Assert.Equal(Some.SumpTag, (await shop.Get<PhotosQuery>().ShownAsync(later.Id, Stop))?.SumpTag);
        Assert.Null(await shop.Get<PhotosQuery>().ShownAsync(plain.Id, Stop));
        Assert.Null(await shop.Get<PhotosQuery>().HashAsync(plain.Id, Stop));
    }

    private static async Task<Actor> PersonAsync(ShopFixture shop)
    {
        var id = Some.Id();
        (await shop.Get<MakeAccountHandler>().HandleAsync(new(id, "op1", "Op One", "ten signs and more", [Roles.Operator], "light"), Some.Supervisor, Stop)).Done();
        return new Actor(id, "Op One");
    }
}
