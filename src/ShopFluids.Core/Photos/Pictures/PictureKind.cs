namespace ShopFluids.Core.Photos.Pictures;

/// <summary>How a picture is packed: told by its first bytes, never by its name.</summary>
public enum PictureKind : short
{
    Jpeg = 1,
    Png = 2,
    WebP = 3,
}

/// <summary>Why a picture was not taken.</summary>
public enum PictureFault
{
    /// <summary>It begins like none of the three kinds, or it moves.</summary>
    UnknownKind,

    /// <summary>It begins like one of them and does not go on as one must.</summary>
    Broken,

    /// <summary>More than <see cref="CleanPicture.MaximumBytes"/>.</summary>
    TooManyBytes,

    /// <summary>A side of more than <see cref="CleanPicture.LongestSidePixels"/>.</summary>
    TooManyPixels,
}
