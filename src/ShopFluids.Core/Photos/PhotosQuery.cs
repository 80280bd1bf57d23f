using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Photos.Pictures;

namespace ShopFluids.Core.Photos;

/// <summary>A photo as it is listed.</summary>
/// <param name="By">Who took the reading.</param>
/// <param name="Orientation">How it is to be turned before it is looked at, 1 to 8.</param>
public sealed record ListedPhoto(Guid ReadingId, DateTime TakenAtUtc, string By, int WidthPixels, int HeightPixels, int Orientation);

/// <summary>A photo on a page of its own.</summary>
public sealed record ShownPhoto(ListedPhoto Photo, string SumpTag);

/// <summary>What a photo is made of.</summary>
public sealed record PhotoFile(PictureKind Kind, string Sha256, byte[] Bytes);

/// <summary>Photos of readings.</summary>
public sealed class PhotosQuery(ShopDatabase database)
{
    /// <summary>Of the sump, from an instant on, newest first.</summary>
    internal static async Task<List<ListedPhoto>> OfSumpAsync(ShopFluidsDbContext db, Guid sumpId, DateTime fromUtc, CancellationToken cancellationToken)
    {
        var photos = await Listed(db, db.Photos.AsNoTracking().Where(p => p.SumpId == sumpId && p.TakenAtUtc >= fromUtc)).ToListAsync(cancellationToken);
        return [.. photos.OrderByDescending(p => p.TakenAtUtc).ThenByDescending(p => p.ReadingId)];
    }

    /// <summary>Null where the reading has none.</summary>
    internal static async Task<ListedPhoto?> OfReadingAsync(ShopFluidsDbContext db, Guid readingId, CancellationToken cancellationToken) =>
        await Listed(db, db.Photos.AsNoTracking().Where(p => p.Id == readingId)).FirstOrDefaultAsync(cancellationToken);

    /// <summary>Null where the reading has none.</summary>
    public async Task<ShownPhoto?> ShownAsync(Guid readingId, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        return await OfReadingAsync(db, readingId, cancellationToken) is { } photo
            ? new ShownPhoto(photo, await db.Photos.Where(p => p.Id == readingId).Join(db.Sumps, p => p.SumpId, s => s.Id, (_, s) => s.Tag).SingleAsync(cancellationToken))
            : null;
    }

    /// <summary>The hash of a photo, for a browser that may have it already; null where there is none.</summary>
    public async Task<string?> HashAsync(Guid readingId, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        return await db.Photos.AsNoTracking().Where(p => p.Id == readingId).Select(p => p.Sha256).FirstOrDefaultAsync(cancellationToken);
    }

    /// <summary>Null where the reading has none.</summary>
    public async Task<PhotoFile?> FileAsync(Guid readingId, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        return await (from photo in db.Photos.AsNoTracking()
                      join content in db.PhotoContents on photo.Id equals content.PhotoId
                      where photo.Id == readingId
                      select new PhotoFile(photo.Kind, photo.Sha256, content.Bytes)).FirstOrDefaultAsync(cancellationToken);
    }

    private static IQueryable<ListedPhoto> Listed(ShopFluidsDbContext db, IQueryable<Photo> photos) =>
        from photo in photos
        join reading in db.Readings on photo.Id equals reading.Id
        join person in db.Users on reading.PersonId equals person.Id into people
        from person in people.DefaultIfEmpty()
        select new ListedPhoto(photo.Id, photo.TakenAtUtc, person == null ? "" : person.DisplayName, photo.WidthPixels, photo.HeightPixels, photo.Orientation);
}
