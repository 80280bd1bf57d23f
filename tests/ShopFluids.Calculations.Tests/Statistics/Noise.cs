namespace ShopFluids.Calculations.Tests.Statistics;

/// <summary>Seeded random numbers for simulations.</summary>
internal sealed class Noise(int seed)
{
    private readonly Random _random = new(seed);

    /// <summary>Normal, mean 0, deviation 1: Box and Muller.</summary>
    public double Normal() => Math.Sqrt(-2 * Math.Log(1 - _random.NextDouble())) * Math.Cos(2 * Math.PI * _random.NextDouble());

    public double Uniform() => _random.NextDouble();
}
