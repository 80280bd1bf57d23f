using System.Data.Common;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Logging;
using Npgsql;

namespace ShopFluids.Benchmarks;

/// <summary>
/// The least that an entry page can cost: a server on the same web host that sends the page as the file it was written into, after the queries
/// that the page needs, by hand on one connection from the driver's pool.
/// </summary>
internal sealed class EntryFloor : IAsyncDisposable
{
    // Is the set-up still the one in memory; where does the sump stand; which instruments was it read with last; must people keep away after a dose.
    private static readonly string[] Queries =
    [
        """SELECT "SetupVersion" FROM "RecordHead" """,
        """SELECT * FROM "Standings" WHERE "SumpId" = (SELECT "Id" FROM "Sumps" WHERE "Tag" = @tag)""",
        """
        SELECT "InstrumentId" FROM "Measurements" WHERE "InstrumentId" IS NOT NULL AND "ReadingId" =
        (SELECT "Id" FROM "Readings" WHERE "SumpId" = (SELECT "Id" FROM "Sumps" WHERE "Tag" = @tag) ORDER BY "TakenAtUtc" DESC LIMIT 1)
        """,
        """
        SELECT * FROM "Doses" d WHERE "SumpId" = (SELECT "Id" FROM "Sumps" WHERE "Tag" = @tag) AND "ReentryHours" IS NOT NULL
        AND NOT EXISTS (SELECT 1 FROM "DoseStrikes" s WHERE s."DoseId" = d."Id")
        """,
    ];

    private readonly WebApplication _app;

    private EntryFloor(WebApplication app) => _app = app;

    public Uri Address => new(_app.Urls.First());

    /// <param name="file">Holds the page.</param>
    public static async Task<EntryFloor> StartAsync(string engine, string connectionString, string file)
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        var app = builder.Build();
        app.Run(async http =>
        {
            await using (var connection = engine == "postgres" ? new NpgsqlConnection(connectionString) : (DbConnection)new SqliteConnection(connectionString))
            {
                await connection.OpenAsync(http.RequestAborted);
                foreach (var query in Queries)
                {
                    await ReadAsync(connection, query, http.RequestAborted);
                }
            }

            http.Response.ContentType = "text/html; charset=utf-8";
            await http.Response.SendFileAsync(file, http.RequestAborted);
        });
        await app.StartAsync();
        return new EntryFloor(app);
    }

    public ValueTask DisposeAsync() => _app.DisposeAsync();

    private static async Task ReadAsync(DbConnection connection, string query, CancellationToken cancellationToken)
    {
        await using var command = connection.CreateCommand();
        command.CommandText = query;
        if (query.Contains("@tag", StringComparison.Ordinal))
        {
            var tag = command.CreateParameter();
            (tag.ParameterName, tag.Value) = ("tag", BenchShop.Sump);
            command.Parameters.Add(tag);
        }

        await using var rows = await command.ExecuteReaderAsync(cancellationToken);
        var row = new object[rows.FieldCount];
        while (await rows.ReadAsync(cancellationToken))
        {
            rows.GetValues(row);
        }
    }
}
