using System.Globalization;
using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;
using ShopFluids.Core.Database;
using ShopFluids.Core.Record;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Record;

/// <summary>
/// Invariant 12, row by row: whatever is changed by hand in a recorded table, verification names the row. The entities and columns come from the
/// model, so a new one is covered from its first day: it fails here until <see cref="BusyShop"/> has one.
/// </summary>
public sealed partial class TamperedRowTests
{
    [Theory, EachDatabase]
    public async Task RunAsync_AnyColumnOfAnyRecordedRowChanged_NamesTheRow(TestDatabase database)
    {
        await using var shop = await BusyShop.OpenAsync(database);
        await using var sql = await RawSql.OpenAsync(database);
        foreach (var type in Recorded(database))
        {
            var (row, where) = await FirstRowAsync(database, type);
            foreach (var property in type.GetProperties().Where(p => !p.IsPrimaryKey()))
            {
                var column = property.GetColumnName();
                var before = await sql.ScalarAsync($"""SELECT "{column}" FROM "{type.GetTableName()}" WHERE {where}""");
                if (before is null or DBNull)
                {
                    continue;
                }

                await sql.ExecuteAsync($"""UPDATE "{type.GetTableName()}" SET "{column}" = @value WHERE {where}""", Another(before, property));
                var findings = (await shop.VerifyAsync()).Findings;
                Assert.True(findings.Any(f => f.Problem == VerifyProblem.RowChanged && f.Where == row), $"{type.ShortName()}.{property.Name} was changed and not found: {string.Join("; ", findings)}");
                await sql.ExecuteAsync($"""UPDATE "{type.GetTableName()}" SET "{column}" = @value WHERE {where}""", before);
            }
        }

        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_AnyRecordedRowDeleted_NamesTheRow(TestDatabase database)
    {
        foreach (var type in Recorded(database))
        {
            await using var fresh = await TestDatabase.CreateAsync(database.Engine);
            await using var shop = await BusyShop.OpenAsync(fresh);
            var (row, where) = await FirstRowAsync(fresh, type);

            await RawSql.ExecuteAsync(fresh, $"""DELETE FROM "{type.GetTableName()}" WHERE {where}""");

            Assert.Contains((await shop.VerifyAsync()).Findings, f => f.Problem == VerifyProblem.RowMissing && f.Where == row);
        }
    }

    [Theory, EachDatabase]
    public async Task RunAsync_RowInsertedByHand_IsNamed(TestDatabase database)
    {
        await using var shop = await BusyShop.OpenAsync(database);
        var id = Some.Id();
        var text = database.Engine == DatabaseEngine.Sqlite ? id.ToString().ToUpperInvariant() : id.ToString();
        await RawSql.ExecuteAsync(database, $"""INSERT INTO "Areas" ("Id", "SiteId", "Name", "WalkOrder", "Version") SELECT '{text}', "SiteId", 'Smuggled in', 9, 1 FROM "Areas" """);

        Assert.Equal([new VerifyFinding(VerifyProblem.RowUnrecorded, $"Area {id}")], (await shop.VerifyAsync()).Findings);
    }

    // Not only other content: content that cannot be read at all.
    [Theory, EachDatabase]
    public async Task RunAsync_JsonColumnMadeUnreadable_NamesTheRowAndReadsTheOthers(TestDatabase database)
    {
        await using var shop = await BusyShop.OpenAsync(database);
        await using var sql = await RawSql.OpenAsync(database);
        foreach (var type in Recorded(database))
        {
            var (row, where) = await FirstRowAsync(database, type);
            foreach (var property in type.GetProperties().Where(IsJson))
            {
                var column = property.GetColumnName();
                var before = await sql.ScalarAsync($"""SELECT "{column}" FROM "{type.GetTableName()}" WHERE {where}""");
                await sql.ExecuteAsync($"""UPDATE "{type.GetTableName()}" SET "{column}" = 'no json' WHERE {where}""");

                var findings = (await shop.VerifyAsync()).Findings.Where(f => f.Problem != VerifyProblem.StandingDiffers);

                Assert.Equal((VerifyProblem.RowChanged, row), Assert.Single(findings.Select(f => (f.Problem, f.Where))));
                await sql.ExecuteAsync($"""UPDATE "{type.GetTableName()}" SET "{column}" = @value WHERE {where}""", before);
            }
        }

        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    private static List<IEntityType> Recorded(TestDatabase database)
    {
        using var db = database.Open();
        return [.. db.Model.GetEntityTypes().Where(t => typeof(IRecorded).IsAssignableFrom(t.ClrType)).OrderBy(t => t.ShortName(), StringComparer.Ordinal)];
    }

    /// <summary>How the record names the first row of a table, and the condition that finds it in SQL.</summary>
    private static async Task<(string Row, string Where)> FirstRowAsync(TestDatabase database, IEntityType type)
    {
        var rows = typeof(TamperedRowTests).GetMethod(nameof(RowsAsync), System.Reflection.BindingFlags.NonPublic | System.Reflection.BindingFlags.Static)!.MakeGenericMethod(type.ClrType);
        await using var db = database.Open();
        var entity = await (Task<object?>)rows.Invoke(null, [db])!;
        Assert.True(entity is not null, $"{nameof(BusyShop)} has no {type.ShortName()}, so nobody knows whether verification sees a change of one.");
        var entry = db.Entry(entity);
        var conditions = type.FindPrimaryKey()!.Properties.Select(p =>
        {
            var value = string.Create(CultureInfo.InvariantCulture, $"{entry.CurrentValues[p]}");
            return $"\"{p.GetColumnName()}\" = '{(p.ClrType == typeof(Guid) && database.Engine == DatabaseEngine.Sqlite ? value.ToUpperInvariant() : value)}'";
        });
        return ($"{type.ShortName()} {RowImage.KeyOf(entry)}", string.Join(" AND ", conditions));
    }

    private static async Task<object?> RowsAsync<T>(ShopFluidsDbContext db)
        where T : class =>
        await db.Set<T>().AsNoTracking().FirstOrDefaultAsync();

    private static bool IsJson(IProperty property) => property.GetValueConverter() is { } converter && converter.ProviderClrType == typeof(string);

    private static object Another(object before, IProperty property)
    {
        var type = Nullable.GetUnderlyingType(property.ClrType) ?? property.ClrType;
        return before switch
        {
            string text when IsJson(property) => AnotherJson(text),
            string text when type == typeof(decimal) => (decimal.Parse(text, CultureInfo.InvariantCulture) + 1).ToString("0.0###", CultureInfo.InvariantCulture),
            string text when type == typeof(DateTime) || type == typeof(DateOnly) => "3" + text[1..],
            string when type == typeof(Guid) => Some.Id().ToString().ToUpperInvariant(),
            string text => text.Length == 0 ? "x" : text[..^1] + (text[^1] == 'X' ? 'Y' : 'X'),
            bool flag => !flag,
            short number => (short)(number + 1),
            int number => number + 1,
            long number when type == typeof(bool) => 1 - number,
            long number => number + 1,
            double number => number + 1,
            decimal number => number + 1,
            Guid => Some.Id(),
            DateTime instant => instant.AddDays(1),
            DateOnly day => day.AddDays(1),
            _ => throw new InvalidOperationException($"{property.DeclaringType.ShortName()}.{property.Name} is a {before.GetType().Name}: say how to change one."),
        };
    }

    // Still JSON of the same shape: another digit, else another letter.
    private static string AnotherJson(string text) => ADigit().IsMatch(text)
        ? ADigit().Replace(text, d => d.Value == "1" ? "2" : "1", 1)
        : ALetter().Replace(text, l => l.Value == "\"x" ? "\"y" : "\"x", 1);

    [GeneratedRegex("[0-9]", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex ADigit();

    [GeneratedRegex("\"[a-z]", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex ALetter();
}
