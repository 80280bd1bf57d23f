using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Core.Database;
using ShopFluids.Core.Photos.Pictures;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Sumps;

namespace ShopFluids.Core.Photos;

/// <summary>The photo of a reading: one at most, hence the reading's id. What it shows is beside it, in <see cref="PhotoContent"/>.</summary>
public sealed class Photo : Entity
{
    private Photo()
    {
    }

    public Photo(Reading reading, CleanPicture picture)
    {
        ArgumentNullException.ThrowIfNull(reading);
        ArgumentNullException.ThrowIfNull(picture);
        Id = reading.Id;
        SumpId = reading.SumpId;
        TakenAtUtc = reading.TakenAtUtc;
        Kind = picture.Kind;
        WidthPixels = picture.Size.WidthPixels;
        HeightPixels = picture.Size.HeightPixels;
        Orientation = picture.Orientation;
        ByteCount = picture.Bytes.Length;
        Sha256 = picture.Sha256;
    }

    public Guid SumpId { get; private set; }

    /// <summary>The reading's: photos of a sump are shown in this order.</summary>
    public DateTime TakenAtUtc { get; private set; }

    public PictureKind Kind { get; private set; }

    /// <summary>As it is packed, before it is turned.</summary>
    public int WidthPixels { get; private set; }

    public int HeightPixels { get; private set; }

    /// <summary>How it is to be turned before it is looked at, 1 to 8.</summary>
    public int Orientation { get; private set; }

    public int ByteCount { get; private set; }

    /// <summary>Stands in the record in place of the bytes: whoever changes them is found out.</summary>
    public string Sha256 { get; private set; } = "";
}

/// <summary>The bytes of a photo, in a table of their own: nothing but the picture itself ever reads them, and they are not written into the record.</summary>
public sealed class PhotoContent
{
    private PhotoContent()
    {
    }

    public PhotoContent(Guid photoId, CleanPicture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        PhotoId = photoId;
        Bytes = picture.Bytes.ToArray();
    }

    public Guid PhotoId { get; private set; }

    public byte[] Bytes { get; private set; } = [];
}

internal sealed class PhotoConfiguration : IEntityTypeConfiguration<Photo>, IEntityTypeConfiguration<PhotoContent>
{
    public void Configure(EntityTypeBuilder<Photo> builder)
    {
        builder.Property(p => p.Sha256).HasMaxLength(64);
        builder.HasIndex(p => new { p.SumpId, p.TakenAtUtc });
        builder.HasOne<Reading>().WithOne().HasForeignKey<Photo>(p => p.Id).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Sump>().WithMany().HasForeignKey(p => p.SumpId).OnDelete(DeleteBehavior.Restrict);
    }

    public void Configure(EntityTypeBuilder<PhotoContent> builder)
    {
        builder.HasKey(c => c.PhotoId);
        builder.Property(c => c.PhotoId).ValueGeneratedNever();
        builder.HasOne<Photo>().WithOne().HasForeignKey<PhotoContent>(c => c.PhotoId).OnDelete(DeleteBehavior.Restrict);
    }
}
