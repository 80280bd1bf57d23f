using System.Reflection;
using Xunit;
using Xunit.Sdk;
using Xunit.v3;

namespace ShopFluids.Testing.Databases;

/// <summary>
/// Runs a theory once on each engine, each time with a fresh, migrated, empty database:
/// <c>[Theory, EachDatabase] public async Task Save_Twice_StoresOne(TestDatabase database)</c>.
/// Arguments of the attribute follow the database; the attribute may stand there several times.
/// </summary>
[AttributeUsage(AttributeTargets.Method, AllowMultiple = true)]
public sealed class EachDatabaseAttribute(params object?[] arguments) : DataAttribute, IBeforeAfterTestAttribute
{
    public IReadOnlyList<object?> Arguments { get; } = arguments;

    public override async ValueTask<IReadOnlyCollection<ITheoryDataRow>> GetData(MethodInfo testMethod, DisposalTracker disposalTracker)
    {
        var rows = new List<ITheoryDataRow>();
        foreach (var engine in Enum.GetValues<DatabaseEngine>())
        {
            rows.Add(new TheoryDataRow([await TestDatabase.TryCreateAsync(engine), .. Arguments]));
        }

        return rows;
    }

    public void Before(MethodInfo methodUnderTest, IXunitTest test)
    {
        // The databases are made with the arguments.
    }

    /// <summary>Begins to drop the test's database; whoever disposes it waits for that. xunit does so after all tests, when there are a thousand.</summary>
    public void After(MethodInfo methodUnderTest, IXunitTest test)
    {
        foreach (var database in test.TestMethodArguments.OfType<TestDatabase>())
        {
            database.BeginDrop();
        }
    }

    /// <summary>No: listing the tests makes no databases.</summary>
    public override bool SupportsDiscoveryEnumeration() => false;
}
