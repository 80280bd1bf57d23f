using System.Globalization;
using ShopFluids.Core.Bench;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Database;
using ShopFluids.Core.Wording;
using ShopFluids.Rules.Scheduling;
using Xunit;

namespace ShopFluids.Core.Tests.Bench;

/// <summary>Runs calculators the way a page does.</summary>
internal static class BenchRuns
{
    public static readonly ShopFormat Format = new(CultureInfo.GetCultureInfo("en-GB"), UnitSystem.Metric, new ShopCalendar(TimeZoneInfo.Utc, 6, new HashSet<DayOfWeek>(), new HashSet<DateOnly>()));

    public static TheoryData<string> Codes => [.. new BenchList().Calculators.Select(c => c.Code)];

    public static BenchCalculator Calculator(string code) => new BenchList().Find(code) ?? throw new ArgumentOutOfRangeException(nameof(code), code, "There is no such calculator.");

    public static Dictionary<string, BenchTyped> Usual(BenchCalculator calculator) => calculator.Inputs
        .Where(i => i is not BenchNumber { Usual: null })
        .ToDictionary(i => i.Code, i => i switch
        {
            BenchNumber { Usual: { } usual } => Number(usual),
            BenchSeries series => Series(series.Usual),
            BenchChoice choice => new BenchTyped(choice.Options[0].Code, null),
            _ => throw new ArgumentOutOfRangeException(nameof(calculator), i, "There is no such kind of input."),
        });

    public static BenchTyped Number(decimal value) => new(value.ToString(CultureInfo.InvariantCulture), [value]);

    public static BenchTyped Series(IReadOnlyList<decimal> values) => new(string.Join(' ', values), values);

    /// <summary>The usual values but for those that are named.</summary>
    public static Result<BenchAnswer> Run(string code, params (string Code, decimal Value)[] values)
    {
        var calculator = Calculator(code);
        var typed = Usual(calculator);
        foreach (var (input, value) in values)
        {
            typed[input] = Number(value);
        }

        return calculator.Run(typed, Format);
    }

    /// <summary>The usual values but for one choice and the numbers that are named.</summary>
    public static Result<BenchAnswer> RunChosen(string code, string choice, string option, params (string Code, decimal Value)[] values)
    {
        var calculator = Calculator(code);
        var typed = Usual(calculator);
        typed[choice] = new BenchTyped(option, null);
        foreach (var (input, value) in values)
        {
            typed[input] = Number(value);
        }

        return calculator.Run(typed, Format);
    }

    public static BenchAnswer Answer(Result<BenchAnswer> result) => result.Value ?? throw new InvalidOperationException($"Refused: {result.Error}");

    public static double Value(this BenchAnswer answer, string output) => answer.Figures.Single(f => f.Output.Code == output).Value;

    /// <summary>As a person would read it off: to one decimal.</summary>
    public static double Rounded(this BenchAnswer answer, string output) => Math.Round(answer.Value(output), 1);

    public static FieldError Fault(Result<BenchAnswer> result) => Assert.Single(Assert.IsType<FieldErrors>(result.Error).Fields);
}
