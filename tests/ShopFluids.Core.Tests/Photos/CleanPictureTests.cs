using System.Buffers.Binary;
using System.Text;
using ShopFluids.Core.Photos.Pictures;
using ShopFluids.Testing.Pictures;
using Xunit;

namespace ShopFluids.Core.Tests.Photos;

/// <summary>Of a photo only the picture is kept; what is none is refused, whatever its bytes.</summary>
public sealed class CleanPictureTests
{
    public static TheoryData<string, byte[]> Samples => new()
    {
        { "jpeg", SamplePicture.Jpeg },
        { "png", SamplePicture.Png },
        { "webp", SamplePicture.WebP },
        { "lossless webp", SamplePicture.LosslessWebP },
        { "talkative jpeg", SamplePicture.TalkativeJpeg(6) },
        { "talkative png", SamplePicture.TalkativePng(3) },
        { "talkative webp", SamplePicture.TalkativeWebP(8) },
    };

    [Theory]
    [MemberData(nameof(Samples))]
    public void Read_APicture_HasItsSizeAndNothingThatWasAdded(string name, byte[] file)
    {
        var picture = Read(file);

        Assert.Equal((SamplePicture.Width, SamplePicture.Height), (picture.Size.WidthPixels, picture.Size.HeightPixels));
        Assert.Equal(-1, picture.Bytes.Span.IndexOf(Encoding.Latin1.GetBytes(SamplePicture.Secret)));
        Assert.True(picture.Bytes.Length <= file.Length, name);
        Assert.Equal(picture.Sha256, Read(picture.Bytes.ToArray()).Sha256);
    }

    [Fact]
    public void Read_PictureWithoutAdditions_StaysAsItIs()
    {
        foreach (var file in new[] { SamplePicture.Jpeg, SamplePicture.Png, SamplePicture.WebP, SamplePicture.LosslessWebP })
        {
            Assert.Equal(file, Read(file).Bytes.ToArray());
        }
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(6)]
    [InlineData(7)]
    [InlineData(8)]
    public void Read_TurnedPicture_SaysHow(int orientation)
    {
        Assert.Equal(orientation, Read(SamplePicture.TalkativeJpeg(orientation)).Orientation);
        Assert.Equal(orientation, Read(SamplePicture.TalkativeJpeg(orientation, isBigEndian: false)).Orientation);
        Assert.Equal(orientation, Read(SamplePicture.TalkativePng(orientation)).Orientation);
        Assert.Equal(orientation, Read(SamplePicture.TalkativeWebP(orientation)).Orientation);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(9)]
    [InlineData(65535)]
    public void Read_OrientationThatIsNone_IsTakenAsItIs(int orientation) => Assert.Equal(1, Read(SamplePicture.TalkativeJpeg(orientation)).Orientation);

    // A directory that points at itself, behind the end, or says that it has more entries than there are bytes.
    [Theory]
    [InlineData(4, 0x7F)]
    [InlineData(4, 0xFF)]
    [InlineData(8, 0xFF)]
    [InlineData(0, 0x4D)]
    [InlineData(2, 0x01)]
    public void Read_ExifSpoiled_StillTakesThePicture(int at, byte value)
    {
        var exif = SamplePicture.Exif(6, isBigEndian: true);
        exif[at] = value;
        byte[] file = [.. SamplePicture.Jpeg[..2], .. SamplePicture.Segment(0xE1, [.. "Exif\0\0"u8, .. exif]), .. SamplePicture.Jpeg[2..]];

        Assert.InRange(Read(file).Orientation, 1, 8);
    }

    [Fact]
    public void Read_TalkativeJpeg_KeepsJfifWithoutItsSmallPictureAndWhatIsForTheColours()
    {
        byte[] icc = SamplePicture.Segment(0xE2, [.. "ICC_PROFILE\0"u8, 1, 1, 7]);
        byte[] adobe = SamplePicture.Segment(0xEE, [.. "Adobe"u8, 0, 100, 0, 0, 0, 0, 1]);
        var talkative = SamplePicture.TalkativeJpeg();
        byte[] file = [.. talkative[..2], .. icc, .. adobe, .. talkative[2..]];

        var kept = Read(file).Bytes.ToArray();

        Assert.Equal([0xFF, 0xD8, .. icc, .. adobe, .. SamplePicture.Segment(0xE0, [.. "JFIF\0"u8, 1, 1, 0, 0, 1, 0, 1, 0, 0]), .. SamplePicture.Jpeg[20..]], kept);
    }

    [Fact]
    public void Read_TalkativePng_KeepsOnlyWhatShowsIt()
    {
        var plain = SamplePicture.Png;

        Assert.Equal([.. plain[..33], .. SamplePicture.Chunk("gAMA", [0, 0, 0xB1, 0x8F]), .. plain[33..]], Read(SamplePicture.TalkativePng()).Bytes.ToArray());
    }

    [Fact]
    public void Read_TalkativeWebP_ClearsItsFlagsAndSaysItsNewSize()
    {
        byte[] header = [0x20, 0, 0, 0, SamplePicture.Width - 1, 0, 0, SamplePicture.Height - 1, 0, 0];
        byte[] chunks = [.. SamplePicture.RiffChunk("VP8X", header), .. SamplePicture.RiffChunk("ICCP", [1, 2, 3]), .. SamplePicture.WebP[12..]];

        Assert.Equal(SamplePicture.Riff(chunks), Read(SamplePicture.TalkativeWebP()).Bytes.ToArray());
    }

    [Fact]
    public void Read_LastChunkOfOddLengthWithoutItsFill_IsTakenWithIt()
    {
        var content = SamplePicture.LosslessWebP[20..];
        byte[] oddContent = content.Length % 2 == 1 ? content : [.. content, 0];
        var chunk = SamplePicture.RiffChunk("VP8L", oddContent);
        var file = SamplePicture.Riff(chunk.AsSpan()[..^1]);

        Assert.Equal(SamplePicture.Riff(chunk), Read(file).Bytes.ToArray());
    }

    [Theory]
    [InlineData("")]
    [InlineData("GIF89a and more")]
    [InlineData("<svg xmlns='http://www.w3.org/2000/svg'/>")]
    [InlineData("<!doctype html><script>alert(1)</script>")]
    [InlineData("%PDF-1.7")]
    [InlineData("RIFF    WAVEfmt ")]
    public void Read_AnotherKind_IsRefusedByItsBytes(string content) => Assert.Equal(PictureFault.UnknownKind, CleanPicture.Read(Encoding.Latin1.GetBytes(content)).Fault);

    [Fact]
    public void Read_MovingWebP_IsRefused()
    {
        byte[] header = [0x02, 0, 0, 0, 23, 0, 0, 15, 0, 0];

        Assert.Equal(PictureFault.UnknownKind, CleanPicture.Read(SamplePicture.Riff(SamplePicture.RiffChunk("VP8X", header))).Fault);
        Assert.Equal(PictureFault.UnknownKind, CleanPicture.Read(SamplePicture.Riff([.. SamplePicture.WebP[12..], .. SamplePicture.RiffChunk("ANIM", [0, 0, 0, 0, 0, 0])])).Fault);
    }

    [Fact]
    public void Read_JustWithinAndJustOverTheLimit_IsTakenAndRefused()
    {
        var comment = SamplePicture.Segment(0xFE, new byte[65_000]);
        List<byte> file = [.. SamplePicture.Jpeg[..2]];
        while (file.Count + comment.Length + SamplePicture.Jpeg.Length < CleanPicture.MaximumBytes)
        {
            file.AddRange(comment);
        }

        file.AddRange(SamplePicture.Jpeg[2..]);
        file.AddRange(new byte[CleanPicture.MaximumBytes - file.Count]);

        Assert.Equal(SamplePicture.Jpeg, Read([.. file]).Bytes.ToArray());
        Assert.Equal(PictureFault.TooManyBytes, CleanPicture.Read([.. file, 0]).Fault);
    }

    [Theory]
    [InlineData(CleanPicture.LongestSidePixels, false)]
    [InlineData(CleanPicture.LongestSidePixels + 1, true)]
    public void Read_SideOfSoManyPixels_IsTakenOrRefused(int side, bool isRefused)
    {
        var header = SamplePicture.Png[16..29];
        BinaryPrimitives.WriteInt32BigEndian(header, side);
        byte[] file = [.. SamplePicture.Png[..8], .. SamplePicture.Chunk("IHDR", header), .. SamplePicture.Png[33..]];

        Assert.Equal(isRefused ? PictureFault.TooManyPixels : null, CleanPicture.Read(file).Fault);
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public void Read_CutOffAnywhere_IsRefusedOrWhole(string name, byte[] file)
    {
        var whole = Read(file).Sha256;
        for (var length = 0; length < file.Length; length++)
        {
            var reading = CleanPicture.Read(file.AsSpan(0, length));

            // What was cut off behind the picture was none of it.
            Assert.True(reading.Fault is not null ^ reading.Picture?.Sha256 == whole, $"{name} at {length}: {reading.Fault} {reading.Picture?.Bytes.Length}");
        }
    }

    // Seeded: lengths that lie, markers where none belong, whole stretches of noise.
    [Theory]
    [MemberData(nameof(Samples))]
    public void Read_SpoiledAnyhow_NeverThrowsAndWhatItTakesIsClean(string name, byte[] file)
    {
        var chance = new Random(20260302);
        var bytes = new byte[12];
        for (var i = 0; i < 20_000; i++)
        {
            var spoiled = (byte[])file.Clone();
            for (var times = chance.Next(1, 6); times > 0; times--)
            {
                var at = chance.Next(spoiled.Length);
                switch (chance.Next(3))
                {
                    case 0:
                        spoiled[at] = (byte)chance.Next(256);
                        break;
                    case 1:
                        spoiled[at] = chance.Next(2) == 0 ? (byte)0xFF : (byte)0;
                        break;
                    default:
                        chance.NextBytes(bytes);
                        bytes.AsSpan(0, Math.Min(bytes.Length, spoiled.Length - at)).CopyTo(spoiled.AsSpan(at));
                        break;
                }
            }

            var picture = CleanPicture.Read(spoiled).Picture;
            Assert.True(picture is null || CleanPicture.Read(picture.Bytes.Span).Picture?.Sha256 == picture.Sha256, $"{name}, round {i}: what was kept is not kept again.");
        }
    }

    private static CleanPicture Read(byte[] file)
    {
        var reading = CleanPicture.Read(file);
        Assert.Null(reading.Fault);
        return reading.Picture ?? throw new InvalidOperationException("A reading without a fault has a picture.");
    }
}
