using ShopFluids.Core.Bench.Inputs;

namespace ShopFluids.Core.Bench.Sumps;

/// <summary>What a sump fills in, as a person would write it; what is not known of it is left out.</summary>
public sealed class BenchKnown
{
    private readonly Dictionary<string, IReadOnlyList<decimal>> _values = new(StringComparer.Ordinal);

    /// <summary>By code of the input.</summary>
    public IReadOnlyDictionary<string, IReadOnlyList<decimal>> Values => _values;

    /// <param name="value">A value that was worked out or read; null when it is not known.</param>
    public void Set(BenchNumber input, double? value, int decimals = 1) => Set(input, value is { } known ? decimal.Round((decimal)known, decimals) : null);

    /// <param name="value">A value that was typed once; null when it is not known.</param>
    public void Set(BenchNumber input, decimal? value)
    {
        if (value is { } known)
        {
            _values[input.Code] = [known];
        }
    }

    public void Set(BenchSeries input, IEnumerable<double> values) =>
        _values[input.Code] = [.. values.Select(v => decimal.Round((decimal)v, 2))];
}
