using ShopFluids.EndToEnd.Tests;
using ShopFluids.EndToEnd.Tests.Server;
using Xunit;
using Xunit.Sdk;
using Xunit.v3;

[assembly: TestCollectionOrderer(typeof(LongestFirst))]

namespace ShopFluids.EndToEnd.Tests;

/// <summary>What shares the demo shop runs one after the other and takes longest: begun last, it would run alone at the end.</summary>
public sealed class LongestFirst : ITestCollectionOrderer
{
    public IReadOnlyCollection<TTestCollection> OrderTestCollections<TTestCollection>(IReadOnlyCollection<TTestCollection> testCollections)
        where TTestCollection : ITestCollection => [.. testCollections.OrderByDescending(c => c.TestCollectionDisplayName == SqliteDemoTests.Name)];
}
