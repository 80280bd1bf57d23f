using ShopFluids.Core.Database;
using ShopFluids.Core.Photos.Pictures;
using ShopFluids.Core.Readings;
using ShopFluids.Web.Account;

namespace ShopFluids.Web.Shop.Entry;

/// <summary>The photo that came with the form: cleaned, or refused.</summary>
public sealed record EntryPhoto(CleanPicture? Picture, FieldError? Fault)
{
    private const decimal Million = 1_000_000;
    private const decimal MaximumMegabytes = CleanPicture.MaximumBytes / Million;

    /// <summary>As it stands beside the field, in MB.</summary>
    public static decimal Limit => MaximumMegabytes;

    /// <summary>Null where none was chosen.</summary>
    public static async Task<EntryPhoto?> ReadAsync(FormPost post, CancellationToken cancellationToken)
    {
        if (post.File(EntryForm.PhotoName) is not { } file)
        {
            return null;
        }

        if (file.Length > CleanPicture.MaximumBytes)
        {
            return new(null, TooLarge(file.Length).Error);
        }

        var bytes = new byte[file.Length];
        await using var stream = file.OpenReadStream();
        await stream.ReadExactlyAsync(bytes, cancellationToken);
        var reading = CleanPicture.Read(bytes);
        return new(reading.Picture, reading.Fault is { } fault ? ErrorOf(fault, file.Length) : null);
    }

    public static EntryFault TooLarge(long bytes) => new(EntryForm.PhotoName, ErrorOf(PictureFault.TooManyBytes, bytes));

    private static FieldError ErrorOf(PictureFault fault, long bytes) => fault switch
    {
        PictureFault.UnknownKind => new(FieldNames.Photo, FieldProblem.NotAPicture),
        PictureFault.Broken => new(FieldNames.Photo, FieldProblem.BrokenPicture),
        // Rounded up: a file just over the limit must not be said to keep it.
        PictureFault.TooManyBytes => new(FieldNames.Photo, FieldProblem.FileTooLarge, decimal.Ceiling(bytes / Million * 10) / 10, High: MaximumMegabytes),
        PictureFault.TooManyPixels => new(FieldNames.Photo, FieldProblem.PictureTooLarge, High: CleanPicture.LongestSidePixels),
        _ => throw new ArgumentOutOfRangeException(nameof(fault), fault, "There is no message for this fault."),
    };
}
