using ShopFluids.Core.Sheets;

namespace ShopFluids.Printing.Charts;

/// <summary>The rectangle of a chart in which values stand, and the way from time and value to a place in it.</summary>
internal sealed class TrendPlot
{
    private readonly TrendTimeAxis _axis;
    private readonly NiceScale _scale;

    public TrendPlot(TrendTimeAxis axis, NiceScale scale, double left, double top, double right, double bottom)
    {
        _axis = axis;
        _scale = scale;
        Left = left;
        Top = top;
        Right = right;
        Bottom = bottom;
    }

    public double Left { get; }

    public double Top { get; }

    public double Right { get; }

    public double Bottom { get; }

    public double Width => Right - Left;

    public bool Shows(DateTime instantUtc) => instantUtc >= _axis.FromUtc && instantUtc <= _axis.ToUtc;

    /// <summary>The place of an instant, at the nearer end when it is beyond the axis.</summary>
    public double X(DateTime instantUtc)
    {
        var span = (_axis.ToUtc - _axis.FromUtc).TotalSeconds;
        var share = span > 0 ? (instantUtc - _axis.FromUtc).TotalSeconds / span : 0.5;
        return Left + (Math.Clamp(share, 0, 1) * Width);
    }

    /// <summary>The height of a value, at the nearer edge when it is off the scale.</summary>
    public double Y(double value) =>
        Math.Clamp(Bottom - ((value - _scale.Low) / (_scale.High - _scale.Low) * (Bottom - Top)), Top, Bottom);
}
