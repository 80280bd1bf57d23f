using ShopFluids.Core.Bench;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Database;
using Xunit;

namespace ShopFluids.Core.Tests.Bench;

/// <summary>What must hold for each calculator, also for those to come.</summary>
public sealed class EveryCalculatorTests
{
    private const int RandomRuns = 2000;

    public static TheoryData<string> Codes => BenchRuns.Codes;

    [Fact]
    public void Codes_OfAllCalculators_Differ()
    {
        var codes = new BenchList().Calculators.Select(c => c.Code).ToList();

        Assert.Equal(codes.Count, codes.Distinct(StringComparer.Ordinal).Count());
        Assert.All(codes, c => Assert.Matches("^[a-z]+(-[a-z0-9]+)*$", c));
    }

    [Theory, MemberData(nameof(Codes))]
    public void Run_UsualValues_GivesEveryOutputAndItsSums(string code)
    {
        var calculator = BenchRuns.Calculator(code);

        var answer = BenchRuns.Answer(calculator.Run(BenchRuns.Usual(calculator), BenchRuns.Format));

        Assert.Equal(calculator.Outputs.Select(o => o.Code).Order(StringComparer.Ordinal), answer.Figures.Select(f => f.Output.Code).Order(StringComparer.Ordinal));
        Assert.All(answer.Figures, f => Assert.True(double.IsFinite(f.Value), f.Output.Code));
        Assert.Contains(calculator.Outputs, o => o.IsMain);
        Assert.NotEmpty(answer.Steps);
        Assert.All(answer.Steps, s => Assert.DoesNotContain("NaN", s.Numbers, StringComparison.Ordinal));
        Assert.NotEqual("", calculator.Title + calculator.Lead + calculator.Source);
    }

    [Theory, MemberData(nameof(Codes))]
    public void Run_NumberOutsideItsRange_NamesFieldAndRange(string code)
    {
        var calculator = BenchRuns.Calculator(code);
        foreach (var input in calculator.Inputs.OfType<BenchNumber>())
        {
            foreach (var wrong in new[] { input.Low - 1, input.High + 1 })
            {
                var fault = Assert.Single(FaultsOf(calculator, input, BenchRuns.Number(wrong)));
                Assert.Equal((input.Code, FieldProblem.OutOfRange, input.Low, input.High), (fault.Field, fault.Problem, fault.Low, fault.High));
            }
        }
    }

    [Theory, MemberData(nameof(Codes))]
    public void Run_FieldEmptyOrUnreadable_NamesTheField(string code)
    {
        var calculator = BenchRuns.Calculator(code);
        foreach (var input in calculator.Inputs)
        {
            var problems = FaultsOf(calculator, input, new BenchTyped("abc", null)).Select(f => (f.Field, f.Problem));
            Assert.Equal([(input.Code, input is BenchChoice ? FieldProblem.UnknownChoice : FieldProblem.NotANumber)], problems);
            if (!input.IsOptional)
            {
                Assert.Equal([(input.Code, FieldProblem.Missing)], FaultsOf(calculator, input, new BenchTyped(" ", null)).Select(f => (f.Field, f.Problem)));
            }
        }
    }

    [Theory, MemberData(nameof(Codes))]
    public void Run_AnyValuesInRange_AnswersFiniteNumbersOrNamesAField(string code)
    {
        var calculator = BenchRuns.Calculator(code);
        var random = new Random(20261125);
        for (var run = 0; run < RandomRuns; run++)
        {
            var typed = calculator.Inputs.Where(i => !i.IsOptional || random.Next(4) > 0).ToDictionary(i => i.Code, i => Any(i, random));

            var result = calculator.Run(typed, BenchRuns.Format);

            if (result.Value is { } answer)
            {
                Assert.All(answer.Figures, f => Assert.True(double.IsFinite(f.Value) && f.Uncertainty is null or >= 0, $"{f.Output.Code} for {Said(typed)}"));
            }
            else
            {
                var fault = BenchRuns.Fault(result);
                Assert.Contains(calculator.Inputs, i => i.Code == fault.Field);
                Assert.Equal(FieldProblem.DoesNotFit, fault.Problem);
                Assert.NotEqual("", fault.Detail);
            }
        }
    }

    private static IReadOnlyList<FieldError> FaultsOf(BenchCalculator calculator, BenchInput input, BenchTyped typed)
    {
        var values = BenchRuns.Usual(calculator);
        values[input.Code] = typed;
        return Assert.IsType<FieldErrors>(calculator.Run(values, BenchRuns.Format).Error).Fields;
    }

    // The ends of a range and round numbers come often: there the mistakes are.
    private static BenchTyped Any(BenchInput input, Random random) => input switch
    {
        BenchNumber number => BenchRuns.Number(Any(number.Low, number.High, random)),
        BenchSeries series => BenchRuns.Series([.. Enumerable.Range(0, series.LeastCount + random.Next(20)).Select(_ => Any(series.Low, series.High, random))]),
        BenchChoice choice => new BenchTyped(choice.Options[random.Next(choice.Options.Count)].Code, null),
        _ => throw new ArgumentOutOfRangeException(nameof(input), input, "There is no such kind of input."),
    };

    private static decimal Any(decimal low, decimal high, Random random) => random.Next(8) switch
    {
        0 => low,
        1 => high,
        2 => Math.Clamp(decimal.Round((low + high) / 2), low, high),
        3 => Math.Clamp(random.Next(0, 20), low, high),
        _ => low + ((high - low) * (decimal)Math.Pow(random.NextDouble(), 3)),
    };

    private static string Said(Dictionary<string, BenchTyped> typed) => string.Join(", ", typed.Select(t => $"{t.Key} {t.Value.Text}"));
}
