using ShopFluids.Core.Database;

namespace ShopFluids.Core.Bench.Inputs;

/// <summary>The values of one run, checked against their inputs.</summary>
public sealed class BenchGiven
{
    private readonly Dictionary<string, decimal> _numbers = new(StringComparer.Ordinal);
    private readonly Dictionary<string, string> _choices = new(StringComparer.Ordinal);
    private readonly Dictionary<string, IReadOnlyList<decimal>> _series = new(StringComparer.Ordinal);

    /// <summary>A number that the calculator does not go without.</summary>
    public double this[BenchNumber input] => (double)_numbers[input.Code];

    /// <summary>The number as it was typed, for money.</summary>
    public decimal Exact(BenchNumber input) => _numbers[input.Code];

    /// <exception cref="ArgumentOutOfRangeException">It is no whole number.</exception>
    public int Whole(BenchNumber input) => decimal.IsInteger(_numbers[input.Code])
        ? (int)_numbers[input.Code]
        : throw new ArgumentOutOfRangeException(input.Code, _numbers[input.Code], "Accepted are whole numbers.");

    public double? Optional(BenchNumber input) => _numbers.TryGetValue(input.Code, out var value) ? (double)value : null;

    public string Choice(BenchChoice input) => _choices[input.Code];

    /// <summary>Empty when it is optional and was not given.</summary>
    public IReadOnlyList<double> Series(BenchSeries input) =>
        _series.TryGetValue(input.Code, out var values) ? [.. values.Select(v => (double)v)] : [];

    /// <summary>Takes what was typed or sent and collects every fault, each at its field.</summary>
    /// <param name="typed">By code of the input; a missing one is left out.</param>
    public static (BenchGiven Given, IReadOnlyList<FieldError> Faults) Read(IReadOnlyList<BenchInput> inputs, IReadOnlyDictionary<string, BenchTyped> typed)
    {
        var given = new BenchGiven();
        var faults = new List<FieldError>();
        foreach (var input in inputs)
        {
            if (!typed.TryGetValue(input.Code, out var value) || value.IsEmpty)
            {
                if (!input.IsOptional)
                {
                    faults.Add(new FieldError(input.Code, FieldProblem.Missing));
                }
            }
            else if (given.Take(input, value) is { } fault)
            {
                faults.Add(fault);
            }
        }

        return (given, faults);
    }

    private FieldError? Take(BenchInput input, BenchTyped typed)
    {
        switch (input)
        {
            case BenchNumber number when typed.Numbers is not [_]:
                return new FieldError(number.Code, FieldProblem.NotANumber, Detail: typed.Text);
            case BenchNumber number:
                _numbers[number.Code] = typed.Numbers[0];
                return Fault(number.Code, typed.Numbers[0], number.Low, number.High, number.Unit);
            case BenchChoice choice:
                _choices[choice.Code] = typed.Text;
                return choice.Options.Any(o => o.Code == typed.Text) ? null : new FieldError(choice.Code, FieldProblem.UnknownChoice, Detail: typed.Text);
            case BenchSeries when typed.Numbers is null:
                return new FieldError(input.Code, FieldProblem.NotANumber, Detail: typed.Text);
            case BenchSeries series:
                _series[series.Code] = typed.Numbers;
                return typed.Numbers.Count < series.LeastCount || typed.Numbers.Count > BenchSeries.MostCount
                    ? new FieldError(series.Code, FieldProblem.WrongCount, typed.Numbers.Count, series.LeastCount, BenchSeries.MostCount)
                    : typed.Numbers.Select(v => Fault(series.Code, v, series.Low, series.High, series.Unit)).FirstOrDefault(f => f is not null);
            default:
                throw new ArgumentOutOfRangeException(nameof(input), input, "There is no such kind of input.");
        }
    }

    private static FieldError? Fault(string code, decimal value, decimal low, decimal high, string unit) =>
        value < low || value > high ? new FieldError(code, FieldProblem.OutOfRange, value, low, high, unit) : null;
}

/// <summary>What stands in a field, as text and as the numbers that it means.</summary>
/// <param name="Numbers">Null when the text is not a number or a list of numbers.</param>
public sealed record BenchTyped(string Text, IReadOnlyList<decimal>? Numbers)
{
    public bool IsEmpty => string.IsNullOrWhiteSpace(Text);
}
