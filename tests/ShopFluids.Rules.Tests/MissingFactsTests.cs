using System.Collections;
using System.Reflection;
using System.Runtime.CompilerServices;
using ShopFluids.Rules.Advice;
using ShopFluids.Rules.Escalation;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.InstrumentCheck;
using ShopFluids.Rules.LateArrival;
using ShopFluids.Rules.Lot;
using ShopFluids.Rules.MassBalance;
using ShopFluids.Rules.Patterns;
using ShopFluids.Rules.Registry;
using ShopFluids.Rules.Scheduling;
using ShopFluids.Rules.Shutdowns;
using ShopFluids.Rules.UnreadSlide;

namespace ShopFluids.Rules.Tests;

/// <summary>Where the services call in, a fact that was forgotten is named at the call, and not found missing somewhere inside.</summary>
public sealed class MissingFactsTests
{
    private static readonly Type[] EntryPoints =
    [
        .. RuleRegistry.All.Select(r => r.GetType()),
        typeof(RulesService),
        typeof(RetestAdvice),
        typeof(CorrectiveWork),
        typeof(TunedRule),
        typeof(LotRule),
        typeof(InstrumentCheckRule),
        typeof(FindingChanges),
        typeof(LateFindings),
        typeof(PatternFacts),
        typeof(PatternCauses),
        typeof(PatternEvidence),
        typeof(PatternCondition),
        typeof(ShutdownFacts),
        typeof(ShutdownAdvice),
        typeof(ShutdownWork),
        typeof(BalanceTerms),
        typeof(ChargeLosses),
        typeof(VisitPlan),
        typeof(VisitWork),
    ];

    public static TheoryData<string, string> Parameters =>
        new(Methods().SelectMany(m => Required(m).Select(p => (NameOf(m), p.Name ?? ""))).Distinct());

    [Theory, MemberData(nameof(Parameters))]
    public void Call_FactIsMissing_NamesIt(string method, string parameter)
    {
        foreach (var called in Methods().Where(m => NameOf(m) == method && Required(m).Any(p => p.Name == parameter)))
        {
            var arguments = called.GetParameters().Select(p => p.Name == parameter ? null : Anything(p.ParameterType)).ToArray();

            var thrown = Record.Exception(() => Answer(called, arguments));
            Assert.Equal(parameter, Assert.IsType<ArgumentNullException>((thrown as TargetInvocationException)?.InnerException ?? thrown).ParamName);
        }
    }

    // What answers one by one looks at its facts only when it is asked for the first.
    private static int Answer(MethodInfo method, object?[] arguments)
    {
        var target = method.IsStatic ? null : RuntimeHelpers.GetUninitializedObject(method.DeclaringType ?? typeof(object));
        return method.Invoke(target, arguments) is IEnumerable many ? many.Cast<object>().Count() : 0;
    }

    private static IEnumerable<MethodInfo> Methods() => EntryPoints
        .SelectMany(t => t.GetMethods(BindingFlags.Public | BindingFlags.Static | BindingFlags.Instance | BindingFlags.DeclaredOnly))
        .Where(m => !m.IsSpecialName && !m.Name.StartsWith('<') && m.Name is not ("Equals" or "Deconstruct" or "ToString" or "GetHashCode"));

    // Two rules are the clock's alone and look at no reading; of texts only that of a condition is looked into.
    private static IEnumerable<ParameterInfo> Required(MethodInfo method) => method.GetParameters()
        .Where(p => !(method.Name == "Check" && (method.DeclaringType == typeof(EscalationRule) || method.DeclaringType == typeof(UnreadSlideRule))))
        .Where(p => new NullabilityInfoContext().Create(p).ReadState != NullabilityState.Nullable)
        .Where(p => !p.ParameterType.IsValueType && (p.ParameterType != typeof(string) || method.DeclaringType == typeof(PatternCondition)));

    private static string NameOf(MethodInfo method) => $"{method.DeclaringType?.Name}.{method.Name}";

    private static object? Anything(Type type) =>
        type.IsValueType ? Activator.CreateInstance(type)
        : type == typeof(string) ? ""
        : !type.IsGenericType ? type.IsInterface ? RuleRegistry.Idle : RuntimeHelpers.GetUninitializedObject(type)
        : type.Name.StartsWith("IReadOnlyDictionary", StringComparison.Ordinal) ? Activator.CreateInstance(typeof(Dictionary<,>).MakeGenericType(type.GenericTypeArguments))
        : type.Name.StartsWith("IReadOnlySet", StringComparison.Ordinal) ? Activator.CreateInstance(typeof(HashSet<>).MakeGenericType(type.GenericTypeArguments))
        : Array.CreateInstance(type.GenericTypeArguments[0], 0);
}
