using ShopFluids.Core.Wording;

namespace ShopFluids.Core.Bench.Inputs;

/// <summary>A value that a calculator asks for. Values are canonical: L, mm, °C, mg/L.</summary>
/// <param name="Code">Its name in the API and in addresses, with the unit in it, such as volumeLitres.</param>
/// <param name="Label">Its name on pages.</param>
public abstract record BenchInput(string Code, Func<string> Label)
{
    /// <summary>One line below the field; null when the label says enough.</summary>
    public Func<string>? Hint { get; init; }

    public bool IsOptional { get; init; }
}

/// <summary>A number within a range.</summary>
/// <param name="Unit">Canonical unit; empty for a plain number.</param>
/// <param name="Low">Smallest accepted value.</param>
/// <param name="High">Largest accepted value.</param>
public sealed record BenchNumber(string Code, Func<string> Label, string Unit, decimal Low, decimal High) : BenchInput(Code, Label)
{
    /// <summary>What a new page shows, so that there is something to look at; null leaves the field empty.</summary>
    public decimal? Usual { get; init; }

    public QuantityKind Kind => QuantityInput.OfUnit(Unit);
}

/// <summary>One of a few words.</summary>
public sealed record BenchChoice(string Code, Func<string> Label, IReadOnlyList<BenchOption> Options) : BenchInput(Code, Label);

/// <param name="Code">Its name in the API and in addresses.</param>
public sealed record BenchOption(string Code, Func<string> Label);

/// <summary>Several numbers in order, such as the readings of a charge.</summary>
/// <param name="Unit">Canonical unit of each; empty for plain numbers.</param>
/// <param name="LeastCount">Fewest numbers that the calculation can use.</param>
public sealed record BenchSeries(string Code, Func<string> Label, string Unit, decimal Low, decimal High, int LeastCount) : BenchInput(Code, Label)
{
    /// <summary>More would not be read on a page anyway.</summary>
    public const int MostCount = 2000;

    public IReadOnlyList<decimal> Usual { get; init; } = [];

    public QuantityKind Kind => QuantityInput.OfUnit(Unit);
}
