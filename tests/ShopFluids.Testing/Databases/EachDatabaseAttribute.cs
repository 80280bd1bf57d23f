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
public sealed class EachDatabaseAttribute(params object?[] arguments) : DataAttribute
{
    public IReadOnlyList<object?> Arguments { get; } = arguments;

    /// <summary>xunit disposes what it is given here after the theory, which drops the databases.</summary>
    public override async ValueTask<IReadOnlyCollection<ITheoryDataRow>> GetData(MethodInfo testMethod, DisposalTracker disposalTracker)
    {
        var rows = new List<ITheoryDataRow>();
        foreach (var engine in Enum.GetValues<DatabaseEngine>())
        {
            rows.Add(new TheoryDataRow([await TestDatabase.TryCreateAsync(engine), .. Arguments]));
        }

        return rows;
    }

    /// <summary>No: listing the tests makes no databases.</summary>
    public override bool SupportsDiscoveryEnumeration() => false;
}
