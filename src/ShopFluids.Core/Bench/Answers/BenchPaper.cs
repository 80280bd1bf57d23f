using ShopFluids.Calculations.Uncertainties;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;

namespace ShopFluids.Core.Bench.Answers;

/// <summary>The sheet on which a calculator writes down what it finds.</summary>
public sealed class BenchPaper(ShopFormat format)
{
    /// <summary>Digits that count: more would pretend, fewer could not be followed with a pocket calculator.</summary>
    private const int Digits = 5;

    private readonly List<BenchFigure> _figures = [];
    private readonly List<BenchStep> _steps = [];
    private readonly List<BenchFinding> _findings = [];

    public ShopFormat Format { get; } = format;

    public BenchPicture? Picture { get; set; }

    public BenchTable? Table { get; set; }

    public void Give(BenchOutput output, double value, double? uncertainty = null) => _figures.Add(new BenchFigure(output, value, uncertainty));

    public void Give(BenchOutput output, Estimate estimate) => Give(output, estimate.Value, estimate.ExpandedUncertainty);

    /// <param name="formula">In symbols.</param>
    /// <param name="pattern">The same with {0}, {1} ... for the numbers.</param>
    public void Step(string formula, string pattern, params double[] numbers) =>
        _steps.Add(new BenchStep(formula, Format.Say(pattern, [.. numbers.Select(Number)])));

    public void Find(string code, Verdict verdict, string sentence) => _findings.Add(new BenchFinding(code, verdict, sentence));

    public BenchAnswer Answer() => new(_figures, _steps, _findings, Picture) { Table = Table };

    /// <summary>A number with the digits that count.</summary>
    public string Number(double value)
    {
        if (value == 0)
        {
            return Format.Count(0);
        }

        var size = (int)Math.Floor(Math.Log10(Math.Abs(value)));
        var decimals = Math.Clamp(Digits - 1 - size, 0, 9);
        if (size > 14 || size < -6)
        {
            return value.ToString("0.####E+0", Format.Culture);
        }

        var text = Format.Number(value, decimals);
        var point = Format.Culture.NumberFormat.NumberDecimalSeparator;
        return text.Contains(point, StringComparison.Ordinal) ? text.TrimEnd('0').TrimEnd(point[0]) : text;
    }
}
