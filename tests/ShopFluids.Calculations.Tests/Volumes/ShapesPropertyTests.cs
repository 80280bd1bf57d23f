using FsCheck.Xunit;
using MathNet.Numerics.Integration;
using ShopFluids.Calculations.Volumes;
using Xunit;

namespace ShopFluids.Calculations.Tests.Volumes;

/// <summary>What holds for every shape: volume and level are inverse, volume rises, and it is the integral of the surface.</summary>
[Properties(MaxTest = 20_000, Replay = "20260101,20260103")]
public sealed class ShapesPropertyTests
{
    [Property]
    public void LevelMmAt_OfVolumeLitresAt_IsTheInverse(byte shape, ushort a, ushort b, ushort c, ushort fraction)
    {
        var sump = Some(shape, a, b, c);
        var level = sump.BrimMm * fraction / ushort.MaxValue;
        var volume = sump.VolumeLitresAt(level);
        Assert.InRange(volume, sump.BottomLitres, sump.BrimLitres * (1 + 1e-12));
        var back = sump.LevelMmAt(Math.Min(volume, sump.BrimLitres));
        Assert.InRange(back, 0, sump.BrimMm);
        Assert.Equal(volume, sump.VolumeLitresAt(back), tolerance: 1e-9 * sump.BrimLitres);

        // Where the surface vanishes, as on top of a lying cylinder, the level follows from a volume only with half of its digits.
        Assert.Equal(level, back, tolerance: 1e-5 * sump.BrimMm);
    }

    [Property]
    public void VolumeLitresAt_HigherLevel_IsMore(byte shape, ushort a, ushort b, ushort c, ushort fraction)
    {
        var sump = Some(shape, a, b, c);
        var lower = sump.VolumeLitresAt(sump.BrimMm * fraction / (ushort.MaxValue + 1.0));
        Assert.True(sump.VolumeLitresAt(sump.BrimMm * (fraction + 1) / (ushort.MaxValue + 1.0)) > lower);
        Assert.Equal(0, sump.VolumeLitresAt(0), 12);
    }

    [Property(MaxTest = 2000)]
    public void VolumeLitresAt_IntegralOfTheSurfaceAsOracle_Agrees(byte shape, ushort a, ushort b, ushort c)
    {
        var sump = Some(shape, a, b, c);
        var integral = DoubleExponentialTransformation.Integrate(sump.SurfaceLitresPerMmAt, 0.2 * sump.BrimMm, 0.8 * sump.BrimMm, 1e-9);
        Assert.Equal(sump.VolumeLitresAt(0.8 * sump.BrimMm) - sump.VolumeLitresAt(0.2 * sump.BrimMm), integral, tolerance: 2e-3 * sump.BrimLitres);
    }

    [Property]
    public void StoppedAndRunningLevel_OfOneVolumeInFlight_AreInverse(byte shape, ushort a, ushort b, ushort c, ushort level, ushort share)
    {
        var sump = Some(shape, a, b, c);
        var stopped = sump.BrimMm * (1 + level) / (ushort.MaxValue + 1.0);
        var flight = sump.VolumeLitresAt(stopped) * share / ushort.MaxValue;
        var running = DrainBack.RunningLevelMm(sump, stopped, flight);
        Assert.InRange(running, 0, stopped + (1e-5 * sump.BrimMm));
        Assert.Equal(sump.VolumeLitresAt(stopped), sump.VolumeLitresAt(running) + flight, tolerance: 1e-8 * sump.BrimLitres);
        var room = Math.Min(flight, sump.BrimLitres - sump.VolumeLitresAt(running));
        Assert.Equal(stopped, DrainBack.StoppedLevelMm(sump, running, room), tolerance: 1e-5 * sump.BrimMm);
    }

    private static SumpGeometry Some(byte shape, ushort a, ushort b, ushort c)
    {
        var (l, w, h) = (100 + (a / 10.0), 100 + (b / 10.0), 50 + (c / 50.0));
        SumpGeometry sump = (shape % 5) switch
        {
            0 => new BoxesSump([new(l, w, 0), new(w, h, h * 0.3), new(h, l, h * 0.6)], h),
            1 => new HopperSump(l, w, l * (a % 7) / 7, w * (b % 5) / 5, Math.Min(h, 1 + ((h - 1) * (c % 4) / 3)), h),
            2 => new VerticalCylinderSump(l, h),
            3 => new HorizontalCylinderSump(l, w),
            _ => HopperSump.WithSlopedBottom(l, w, h / 4, h),
        };
        return shape < 128 ? sump : new DisplacedSump(sump, sump.BrimLitres * shape / 512);
    }
}
