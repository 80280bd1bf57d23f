using System.Reflection;
using Xunit;
using Xunit.Sdk;
using Xunit.v3;

namespace ShopFluids.EndToEnd.Tests.Looks;

/// <summary>Runs a theory for the name of every checked page.</summary>
[AttributeUsage(AttributeTargets.Method)]
public sealed class EveryPageAttribute : DataAttribute
{
    public override ValueTask<IReadOnlyCollection<ITheoryDataRow>> GetData(MethodInfo testMethod, DisposalTracker disposalTracker) =>
        new([.. CheckedPage.All.Select(p => new TheoryDataRow(p.Name))]);

    public override bool SupportsDiscoveryEnumeration() => true;
}
