using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Record;
using ShopFluids.Data.Postgres;
using ShopFluids.Data.Sqlite;

namespace ShopFluids.Architecture.Tests;

public sealed class DatabaseTests
{
    public static TheoryData<string> Engines => ["sqlite", "postgres"];

    [Theory, MemberData(nameof(Engines))]
    public void Model_Migrations_AreComplete(string engine)
    {
        using var db = Open(engine);
        Assert.False(db.Database.HasPendingModelChanges(), $"The model has changed since the last migration of {engine}: bash deploy/dev/add-migration.sh Name");
    }

    [Fact]
    public void Migrations_OfBothEngines_HaveTheSameNames()
    {
        using var sqlite = Open("sqlite");
        using var postgres = Open("postgres");
        Assert.Equal(Names(sqlite), Names(postgres));
    }

    [Theory, MemberData(nameof(Engines))]
    public void Model_Instants_AreDateTimesOnly(string engine)
    {
        using var db = Open(engine);

        // Identity's own lock-out column is the one that is not ours to choose; nothing sorts by it.
        Assert.Equal(
            ["Person.LockoutEnd"],
            db.Model.GetEntityTypes().SelectMany(t => t.GetProperties().Where(p => p.ClrType == typeof(DateTimeOffset) || p.ClrType == typeof(DateTimeOffset?)).Select(p => $"{t.ShortName()}.{p.Name}")));
    }

    [Fact]
    public void Entities_Recorded_AllHaveAnImage()
    {
        using var db = Open("sqlite");
        foreach (var type in db.Model.GetEntityTypes().Where(t => typeof(IRecorded).IsAssignableFrom(t.ClrType)))
        {
            var entity = Activator.CreateInstance(type.ClrType, nonPublic: true);
            Assert.NotNull(entity);
            Assert.StartsWith("{", RowImage.Of(db.Entry(entity)), StringComparison.Ordinal);
        }
    }

    private static IEnumerable<string> Names(ShopFluidsDbContext db) => db.Database.GetMigrations().Select(m => m[(m.IndexOf('_', StringComparison.Ordinal) + 1)..]);

    // Only the model is looked at; nothing connects.
    private static ShopFluidsDbContext Open(string engine)
    {
        var options = new DbContextOptionsBuilder<ShopFluidsDbContext>();
        if (engine == "sqlite")
        {
            new SqliteProvider().Configure(options, "Data Source=none.db");
        }
        else
        {
            new PostgresProvider().Configure(options, "Host=nowhere");
        }

        return new ShopFluidsDbContext(options.Options);
    }
}
