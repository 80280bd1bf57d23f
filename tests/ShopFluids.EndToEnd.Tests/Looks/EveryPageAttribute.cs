using System.Reflection;
using Xunit;
using Xunit.Sdk;
using Xunit.v3;

namespace ShopFluids.EndToEnd.Tests.Looks;

/// <summary>Runs a theory for the name of every checked page, or for those of the shop floor only.</summary>
[AttributeUsage(AttributeTargets.Method)]
public sealed class EveryPageAttribute : DataAttribute
{
    public bool TabletOnly { get; init; }

    public override ValueTask<IReadOnlyCollection<ITheoryDataRow>> GetData(MethodInfo testMethod, DisposalTracker disposalTracker) =>
        new([.. CheckedPage.All.Where(p => p.IsTablet || !TabletOnly).Select(p => new TheoryDataRow(p.Name))]);

    public override bool SupportsDiscoveryEnumeration() => true;
}
