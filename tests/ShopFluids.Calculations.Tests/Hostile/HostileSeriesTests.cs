using System.Collections;
using System.Reflection;
using ShopFluids.Calculations.Balances;
using ShopFluids.Calculations.Charts;
using ShopFluids.Calculations.Forecasts;
using ShopFluids.Calculations.Statistics;
using ShopFluids.Calculations.Uncertainties;
using Xunit;

namespace ShopFluids.Calculations.Tests.Hostile;

/// <summary>
/// What <see cref="HostileInputTests"/> does for the whole assembly, for the listed namespaces with readings, series and lines that are accepted
/// but extreme, and for the functions of objects too: the answer is made of finite numbers, or an argument is refused by its name.
/// </summary>
public sealed class HostileSeriesTests
{
    private const int CallsEach = 3000;

    private static readonly string[] Covered =
    [
        "ShopFluids.Calculations.Balances", "ShopFluids.Calculations.Charts", "ShopFluids.Calculations.Forecasts", "ShopFluids.Calculations.Statistics",
    ];

    private static readonly double[] Numbers =
        [double.NaN, double.PositiveInfinity, double.NegativeInfinity, -1, 0, double.Epsilon, 1e-300, 1e-9, 0.3, 0.5, 1, 1.5, 7, 100, 3650, 1e6, 1e9, 1e12, double.MaxValue, -double.MaxValue];

    private static readonly double[][] Lists =
    [
        [], [double.NaN], [0], [double.Epsilon, -double.Epsilon, 0], [1, 2], [1, 2, 3, 4, 5], [5, 5, 5, 5, 5], [1e12, -1e12, 1e12, -1e12, 1e12],
        [1e-300, 2e-300, 3e-300, 5e-300, 4e-300], [-1e9, -1e-6, 0, 1e-6, 1e9], [1, double.PositiveInfinity, 3, 4, 5], [1e308, -1e308, 1, 2, 3],
        [.. Enumerable.Range(0, 300).Select(i => 1e12 * Math.Sin(i))], [.. Enumerable.Range(0, 300).Select(i => (double)(i % 2))],
    ];

    public static TheoryData<string> Functions => [.. Callables().Keys.Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Functions))]
    public void AnyFunction_HostileInput_AnswersFiniteNumbersOrNamesTheArgument(string name)
    {
        var method = Callables()[name];
        var random = new Random(20260101);
        var refused = 0;
        for (var call = 0; call < CallsEach; call++)
        {
            var target = method.IsStatic ? null : Make(method.DeclaringType, random);
            var arguments = method.GetParameters().Select(parameter => Make(parameter.ParameterType, random)).ToArray();
            try
            {
                var answer = method.Invoke(target, arguments);
                AssertFinite(answer, name, 0);
            }
            catch (TargetInvocationException wrapped) when (wrapped.InnerException is ArgumentException error)
            {
                Assert.False(string.IsNullOrEmpty(error.ParamName), $"{name}: {error}");
                refused++;
            }
        }

        Assert.True(refused > 0, "Nothing was refused: the values are not hostile to this function.");
    }

    private static Dictionary<string, MethodInfo> Callables()
    {
        var types = typeof(Balance).Assembly.GetExportedTypes().Where(type => Covered.Contains(type.Namespace) && !type.IsEnum).ToList();
        const BindingFlags Own = BindingFlags.Public | BindingFlags.Static | BindingFlags.Instance | BindingFlags.DeclaredOnly;
        var methods = types.SelectMany(type => type.GetMethods(Own)).Where(method => !method.IsSpecialName && method.GetParameters().Length > 0)
            .Where(method => method.Name is not ("Equals" or "Deconstruct") && !method.Name.StartsWith('<'));
        return methods.ToDictionary(method => $"{method.DeclaringType?.Name}.{method.Name}({string.Join(", ", method.GetParameters().Select(p => p.Name))})");
    }

    private static object? Make(Type? type, Random random)
    {
        if (type is null)
        {
            return null;
        }

        if (Nullable.GetUnderlyingType(type) is { } inner)
        {
            return random.Next(4) == 0 ? null : Make(inner, random);
        }

        var number = Numbers[random.Next(Numbers.Length)];
        return type switch
        {
            _ when type == typeof(double) => random.Next(3) == 0 ? random.NextDouble() * 10 : number,
            _ when type == typeof(Estimate) => Accept(() => new Estimate(Accepted(random), Math.Abs(Accepted(random)))) ?? Estimate.Exact(1),
            _ when type == typeof(IReadOnlyList<double>) => random.Next(20) == 0 ? null : Lists[random.Next(Lists.Length)],
            _ when type == typeof(IReadOnlyList<RunRule>) => random.Next(10) == 0 ? new RunRule[] { (RunRule)99 } : RunRules.Nelson,
            _ when type == typeof(IReadOnlyList<SumpReading>) => Enumerable.Range(0, random.Next(5)).Select(_ => Reading(random)).OrderBy(r => r?.Day).ToArray(),
            _ when type == typeof(IReadOnlyList<Movement>) => Enumerable.Range(0, random.Next(4)).Select(_ => Moved(random)).OrderBy(m => m?.Day).ToArray(),
            _ when type == typeof(Series) => Accept(() => Series.From(Lists[random.Next(Lists.Length)], Lists[random.Next(Lists.Length)])),
            _ when type == typeof(StraightLine) => Line(random),
            _ when type == typeof(SumpReading) => Reading(random),
            _ when type == typeof(LossRates) => Accept(() => new LossRates(Rate(random), Rate(random), Rate(random))) ?? new(default, default, default),
            _ when type == typeof(MakeUp) => Accept(() => new MakeUp(Accepted(random), Math.Abs(Accepted(random)), Math.Abs(Accepted(random)))) ?? new(400, 12, 4),
            _ when type == typeof(LimitBand) => Accept(() => new LimitBand(Accepted(random), Accepted(random))) ?? new(1, 2),
            _ when type == typeof(IndividualsLimits) => Accept(() => new IndividualsLimits(Accepted(random), Math.Abs(Accepted(random)))) ?? new(1, 1),
            _ => throw new InvalidOperationException($"No hostile values for {type}."),
        };
    }

    private static double Accepted(Random random) => Numbers[3 + random.Next(Numbers.Length - 3)];

    private static Estimate Rate(Random random) => new((random.NextDouble() - 0.3) * Accepted(random) / 2, Math.Abs(Accepted(random)));

    private static SumpReading? Reading(Random random) =>
        random.Next(50) == 0 ? null : Accept(() => new SumpReading(
            10 * random.NextDouble(), new(Accepted(random), Math.Abs(Accepted(random))), new(Accepted(random), Math.Abs(Accepted(random))), random.Next(2) == 0 ? null : Accepted(random)));

    private static Movement? Moved(Random random) => Accept(() => random.Next(2) == 0
        ? Movement.Addition(10 * random.NextDouble(), new(Accepted(random), Math.Abs(Accepted(random))), new(Accepted(random), 0))
        : Movement.Removal(10 * random.NextDouble(), new(Accepted(random), 0), new(Accepted(random), 1)));

    private static StraightLine Line(Random random)
    {
        StraightLine? line = null;
        while (line is null)
        {
            line = Accept(() => StraightLine.Fit(Series.From(Lists[random.Next(Lists.Length)], Lists[random.Next(Lists.Length)])));
        }

        return line;
    }

    // Null where the values are refused, so that what reaches a function is what a caller can make.
    private static T? Accept<T>(Func<T> make)
        where T : class
    {
        try
        {
            return make();
        }
        catch (ArgumentException)
        {
            return null;
        }
    }

    private static Estimate? Accept(Func<Estimate> make)
    {
        try
        {
            return make();
        }
        catch (ArgumentException)
        {
            return null;
        }
    }

    private static void AssertFinite(object? answer, string name, int depth)
    {
        switch (answer)
        {
            case null or string or Enum or bool or int or long:
                break;
            case double number:
                Assert.True(double.IsFinite(number), $"{name} answered {number}.");
                break;
            case IEnumerable many:
                foreach (var one in many)
                {
                    AssertFinite(one, name, depth + 1);
                }

                break;
            default:
                Assert.True(depth < 6);
                foreach (var property in answer.GetType().GetProperties().Where(property => !property.PropertyType.IsByRefLike && property.GetIndexParameters().Length == 0))
                {
                    AssertFinite(property.GetValue(answer), name, depth + 1);
                }

                break;
        }
    }
}
