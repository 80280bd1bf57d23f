using System.Collections;
using System.Reflection;
using ShopFluids.Calculations.Volumes;
using Xunit;

namespace ShopFluids.Calculations.Tests.Hostile;

/// <summary>
/// Every public static function and every public constructor of the assembly is called with NaN, infinities, negatives, zero, tiny and huge
/// numbers, undefined enum values, missing and empty lists. What may come out: a number that is one, or an error that names an argument.
/// </summary>
public sealed class HostileInputTests
{
    private const int CallsPerMember = 3000;
    private static readonly Assembly Calculations = typeof(SumpGeometry).Assembly;

    private static readonly double[] Numbers =
    [
        double.NaN, double.PositiveInfinity, double.NegativeInfinity, double.MaxValue, double.MinValue, double.Epsilon, -double.Epsilon,
        1e300, 1e-300, 1e15, 1e9, 1e6, 1e3, 100, 99.9, 50, 20, 10, 7, 5, 2, 1, 0.5, 0.1, 0.01, 1e-3, 1e-9, 0, -0.0, -1e-9, -1, -100, -1e9,
    ];

    private static readonly decimal[] Decimals = [decimal.MaxValue, decimal.MinValue, 1e20m, 1e9m, 1e6m, 100, 10, 1, 0.01m, 1e-28m, 0, -1e-28m, -1, -1e9m];

    private static readonly int[] Integers = [int.MinValue, -1, 0, 1, 2, 3, 5, 10, 20, 100, 3650, 10_000, int.MaxValue];

    public static TheoryData<string> Members => [.. PublicMembers().Select(Name).Distinct()];

    [Theory]
    [MemberData(nameof(Members))]
    public void Call_HostileInput_GivesANumberOrANamedError(string name)
    {
        var random = new Random(20260101);
        var (answers, refusals) = (0, 0);
        foreach (var member in PublicMembers().Where(member => Name(member) == name))
        {
            for (var call = 0; call < CallsPerMember; call++)
            {
                if (!TryArguments(member, random, out var arguments))
                {
                    refusals++;
                    continue;
                }

                var shown = Shown(arguments);
                try
                {
                    var answer = Invoke(member, arguments);
                    answers++;
                    Assert.False(HasBadNumber(answer, 0), $"{name}({shown}) gave {answer}.");
                    Assert.False(
                        arguments.Any(argument => argument is double.NaN) && !MayHoldWhatItIsGiven(member),
                        $"{name}({shown}) took NaN and gave {answer}.");
                }
                catch (TargetInvocationException thrown) when (thrown.InnerException is ArgumentException error)
                {
                    refusals++;
                    Assert.False(string.IsNullOrEmpty(error.ParamName), $"{name}({shown}) names no argument: {error.Message}");
                    Assert.True(SaysWhatIsAccepted(error), $"{name}({shown}) does not say what is accepted, with its unit: {error.Message}");
                }
                catch (TargetInvocationException thrown)
                {
                    Assert.Fail($"{name}({shown}) threw {thrown.InnerException}");
                }
            }
        }

        Assert.True(answers + refusals > 0, name);
    }

    [Fact]
    public void Members_OfTheAssembly_AreFound() => Assert.True(PublicMembers().Count() > 100, "Too few functions found to be all of them.");

    // A range without its unit ends in a blank before the full stop.
    private static bool SaysWhatIsAccepted(ArgumentException error) =>
        error is ArgumentNullException || (error.Message.StartsWith("Accepted ", StringComparison.Ordinal) && !error.Message.Contains(" .", StringComparison.Ordinal));

    private static IEnumerable<MethodBase> PublicMembers() =>
        from type in Calculations.GetExportedTypes()
        // Tools that measure tests add types of their own to the assembly.
        where type.FullName?.StartsWith("ShopFluids.", StringComparison.Ordinal) is true
        where !type.IsEnum && !typeof(Delegate).IsAssignableFrom(type) && !type.ContainsGenericParameters
        from member in type.GetMethods(BindingFlags.Public | BindingFlags.Static | BindingFlags.DeclaredOnly).Cast<MethodBase>()
            .Concat(type.IsAbstract ? [] : type.GetConstructors())
        where !member.IsSpecialName || member.IsConstructor
        where !member.ContainsGenericParameters
        let parameters = member.GetParameters()

        // Spans cannot be made by reflection; the two functions that take one are tested in GumTests.
        where parameters.Length > 0 && !parameters.Any(parameter => parameter.ParameterType.IsByRefLike || parameter.ParameterType.IsByRef)
        select member;

    private static string Name(MethodBase member) => $"{member.DeclaringType!.Name}.{member.Name}";

    // A record that only carries what a function found, or a pair that is checked where it is used, keeps what it is given.
    private static bool MayHoldWhatItIsGiven(MethodBase member) => member.IsConstructor;

    private static object? Invoke(MethodBase member, object?[] arguments)
    {
        var answer = member is ConstructorInfo constructor ? constructor.Invoke(arguments) : member.Invoke(null, arguments);
        return member.IsConstructor ? null : answer;
    }

    private static bool TryArguments(MethodBase member, Random random, out object?[] arguments)
    {
        var parameters = member.GetParameters();
        arguments = new object?[parameters.Length];
        for (var i = 0; i < parameters.Length; i++)
        {
            if (!TryValue(parameters[i].ParameterType, random, 0, out arguments[i]))
            {
                return false;
            }
        }

        return true;
    }

    private static bool TryValue(Type type, Random random, int depth, out object? value)
    {
        value = null;
        if (Nullable.GetUnderlyingType(type) is { } inner)
        {
            return random.Next(2) is 0 || TryValue(inner, random, depth, out value);
        }

        if (Scalar(type, random) is { } scalar)
        {
            value = scalar;
            return true;
        }

        if (type.IsInterface || type.IsArray)
        {
            return TryList(type.IsArray ? type.GetElementType()! : type.GetGenericArguments()[0], random, depth, out value);
        }

        if (!type.IsValueType && random.Next(30) is 0)
        {
            return true;
        }

        return depth < 4 && TryObject(type, random, depth, out value);
    }

    private static object? Scalar(Type type, Random random) =>
        type == typeof(double) ? Numbers[random.Next(Numbers.Length)]
        : type == typeof(decimal) ? Decimals[random.Next(Decimals.Length)]
        : type == typeof(int) ? Integers[random.Next(Integers.Length)]
        : type == typeof(long) ? (long)Integers[random.Next(Integers.Length)]
        : type == typeof(bool) ? random.Next(2) is 0
        : type == typeof(string) ? (random.Next(2) is 0 ? "" : "S-07")
        : type == typeof(DateTime) ? new DateTime(2026, 1, 1, 0, 0, 0, DateTimeKind.Utc).AddHours(random.Next(10_000))
        : type == typeof(DateOnly) ? new DateOnly(2026, 1, 1).AddDays(random.Next(1000))
        : type == typeof(TimeSpan) ? TimeSpan.FromHours(random.Next(-100, 10_000))
        : type.IsEnum ? Enum.ToObject(type, random.Next(-1, 10))
        : null;

    private static bool TryList(Type element, Random random, int depth, out object? value)
    {
        value = null;
        if (random.Next(30) is 0)
        {
            return true;
        }

        var list = Array.CreateInstance(element, random.Next(5));
        for (var i = 0; i < list.Length; i++)
        {
            if (!TryValue(element, random, depth + 1, out var item))
            {
                return false;
            }

            list.SetValue(item, i);
        }

        value = list;
        return true;
    }

    // By a factory of its own or by its constructor; one try in twenty hands over the default of a struct.
    private static bool TryObject(Type type, Random random, int depth, out object? value)
    {
        value = null;
        if (type.IsValueType && random.Next(20) is 0)
        {
            value = Activator.CreateInstance(type);
            return true;
        }

        var types = type.IsAbstract ? [.. Calculations.GetExportedTypes().Where(other => other.IsSubclassOf(type) && !other.IsAbstract)] : new[] { type };
        MethodBase[] makers =
        [
            .. types.SelectMany(made => made.GetConstructors()),
            .. types.SelectMany(made => made.GetMethods(BindingFlags.Public | BindingFlags.Static)).Where(made => made.ReturnType == type && !made.IsSpecialName),
        ];
        makers = [.. makers.Where(made => made.GetParameters().Length > 0 && !made.GetParameters().Any(parameter => parameter.ParameterType.IsByRefLike))];
        for (var attempt = 0; attempt < 20 && makers.Length > 0; attempt++)
        {
            var maker = makers[random.Next(makers.Length)];
            var parameters = maker.GetParameters();
            var arguments = new object?[parameters.Length];
            var complete = true;
            for (var i = 0; i < parameters.Length && complete; i++)
            {
                complete = TryValue(parameters[i].ParameterType, random, depth + 1, out arguments[i]);
            }

            try
            {
                value = !complete ? null : maker is ConstructorInfo constructor ? constructor.Invoke(arguments) : maker.Invoke(null, arguments);
                if (value is not null)
                {
                    return true;
                }
            }
            catch (TargetInvocationException refused) when (refused.InnerException is ArgumentException)
            {
                // Refused by name, as it should be: the next attempt uses other numbers.
                value = null;
            }
        }

        return false;
    }

    private static bool HasBadNumber(object? answer, int depth) => answer switch
    {
        null or string or bool or int or long or decimal or DateTime or DateOnly or TimeSpan => false,
        double number => !double.IsFinite(number),
        Enum named => !Enum.IsDefined(named.GetType(), named),
        IEnumerable items => items.Cast<object?>().Any(item => HasBadNumber(item, depth + 1)),
        System.Runtime.CompilerServices.ITuple tuple => Enumerable.Range(0, tuple.Length).Any(i => HasBadNumber(tuple[i], depth + 1)),
        _ => depth < 4 && answer.GetType().GetProperties(BindingFlags.Public | BindingFlags.Instance)
            .Where(property => property.GetIndexParameters().Length is 0 && !property.PropertyType.IsByRefLike)
            .Any(property => HasBadNumber(property.GetValue(answer), depth + 1)),
    };

    private static string Shown(object?[] arguments) => string.Join("; ", arguments.Select(argument => argument ?? "null"));
}
