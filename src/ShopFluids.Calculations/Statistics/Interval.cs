using System.Runtime.InteropServices;

namespace ShopFluids.Calculations.Statistics;

/// <summary>A value with the interval around it, in its unit. The default value is 0 from 0 to 0.</summary>
/// <param name="Value">The best estimate.</param>
/// <param name="Low">The lower end.</param>
/// <param name="High">The upper end.</param>
[StructLayout(LayoutKind.Auto)]
public readonly record struct Interval(double Value, double Low, double High);
