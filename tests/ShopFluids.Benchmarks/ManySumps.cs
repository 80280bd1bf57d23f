using System.Data.Common;
using System.Globalization;
using Npgsql;

namespace ShopFluids.Benchmarks;

/// <summary>Copies one sump with its charge, its care plan and its open work, row by row past the program: thousands by commands would take minutes.</summary>
internal sealed class ManySumps(DbConnection connection)
{
    private static readonly (string Table, string OfTheSump)[] Tables =
    [
        ("Sumps", "\"Id\" = {0}"),
        ("Charges", "\"SumpId\" = {0}"),
        ("CarePlans", "\"SumpId\" = {0}"),
        ("CareSteps", "\"CarePlanId\" IN (SELECT \"Id\" FROM \"CarePlans\" WHERE \"SumpId\" = {0})"),
        ("CareTasks", "\"SumpId\" = {0}"),
        ("Standings", "\"SumpId\" = {0}"),
    ];

    /// <param name="first">The number of the first copy; its tag is <see cref="TagOf"/>.</param>
    public async Task CopyAsync(string tag, int first, int count)
    {
        var rows = new List<(string Table, Row Row)>();
        foreach (var (table, where) in Tables)
        {
            rows.AddRange((await ReadAsync(table, string.Format(CultureInfo.InvariantCulture, where, $"(SELECT \"Id\" FROM \"Sumps\" WHERE \"Tag\" = '{tag}')"))).Select(r => (table, r)));
        }

        var ids = rows.Where(r => r.Row.Names.Contains("Id")).Select(r => IdOf(r.Row["Id"])).ToList();
        await using var transaction = await connection.BeginTransactionAsync();
        var inserts = new Dictionary<string, DbCommand>(StringComparer.Ordinal);
        for (var number = first; number < first + count; number++)
        {
            var copies = ids.ToDictionary(id => id, _ => Guid.CreateVersion7());
            foreach (var (table, row) in rows)
            {
                if (!inserts.TryGetValue(table, out var insert))
                {
                    insert = Insert(table, row, transaction);
                    inserts.Add(table, insert);
                }

                for (var i = 0; i < row.Names.Count; i++)
                {
                    insert.Parameters[i].Value = Copied(row.Names[i], row.Values[i], copies, number);
                }

                await insert.ExecuteNonQueryAsync();
            }
        }

        foreach (var insert in inserts.Values)
        {
            await insert.DisposeAsync();
        }

        await transaction.CommitAsync();
        await using var analyze = connection.CreateCommand();
        analyze.CommandText = "ANALYZE";
        await analyze.ExecuteNonQueryAsync();
    }

    public static string TagOf(int number) => string.Create(CultureInfo.InvariantCulture, $"C-{number:00000}");

    private async Task<List<Row>> ReadAsync(string table, string where)
    {
        await using var command = connection.CreateCommand();
        command.CommandText = $"SELECT * FROM \"{table}\" WHERE {where}";
        await using var reader = await command.ExecuteReaderAsync();
        var rows = new List<Row>();
        while (await reader.ReadAsync())
        {
            var values = new object[reader.FieldCount];
            reader.GetValues(values);
            rows.Add(new([.. Enumerable.Range(0, reader.FieldCount).Select(reader.GetName)], values));
        }

        return rows;
    }

    private DbCommand Insert(string table, Row row, DbTransaction transaction)
    {
        var insert = connection.CreateCommand();
        insert.Transaction = transaction;
        insert.CommandText = $"INSERT INTO \"{table}\" ({string.Join(", ", row.Names.Select(n => $"\"{n}\""))}) VALUES ({string.Join(", ", row.Names.Select((_, i) => $"@p{i}"))})";
        for (var i = 0; i < row.Names.Count; i++)
        {
            var parameter = insert.CreateParameter();
            parameter.ParameterName = $"p{i}";
            insert.Parameters.Add(parameter);
        }

        return insert;
    }

    // Ids stand in columns of their own, in the cause of a task and in the document of a standing; SQLite keeps them as text.
    private static object Copied(string name, object value, Dictionary<Guid, Guid> copies, int number)
    {
        if (name is "Tag" or "TagKey")
        {
            return TagOf(number);
        }

        return value switch
        {
            Guid id => copies.TryGetValue(id, out var copy) ? copy : id,
            string text when text.Contains('-', StringComparison.Ordinal) => copies.Aggregate(
                text,
                (t, c) => t.Replace(c.Key.ToString().ToUpperInvariant(), c.Value.ToString().ToUpperInvariant(), StringComparison.Ordinal).Replace(c.Key.ToString(), c.Value.ToString(), StringComparison.Ordinal)),
            _ => value,
        };
    }

    private static Guid IdOf(object value) => value is Guid id ? id : Guid.Parse((string)value, CultureInfo.InvariantCulture);

    public static DbConnection Connect(bool isPostgres, string connectionString) =>
        isPostgres ? new NpgsqlConnection(connectionString) : new Microsoft.Data.Sqlite.SqliteConnection(connectionString);

    private sealed record Row(IReadOnlyList<string> Names, object[] Values)
    {
        public object this[string name] => Values[Names.ToList().IndexOf(name)];
    }
}
