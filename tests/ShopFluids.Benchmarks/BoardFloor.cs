using System.Data.Common;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;

namespace ShopFluids.Benchmarks;

/// <summary>
/// The least that the board can cost: a server on the same web host that sends the page as the file it was written into, after the queries that the
/// board needs, by hand on one connection from the driver's pool.
/// </summary>
internal sealed class BoardFloor : IAsyncDisposable
{
    // Is the set-up still the one in memory; where each sump stands; what is open; who may do it; what is skipped; what concentrate costs.
    private static readonly string[] Queries =
    [
        """SELECT "SetupVersion" FROM "RecordHead" """,
        """SELECT "SumpId", "ChargeId", "LastReadAtUtc", "VolumeLitres", "Facts" FROM "Standings" """,
        """SELECT * FROM "Flags" WHERE "EndedAtUtc" IS NULL""",
        """SELECT * FROM "CareTasks" WHERE "State" = 1""",
        """SELECT u."Id", u."DisplayName", r."RoleId" FROM "AspNetUsers" u LEFT JOIN "AspNetUserRoles" r ON r."UserId" = u."Id" """,
        """SELECT * FROM "SkippedStops" ORDER BY "Id" DESC LIMIT 10""",
        """SELECT "FluidId", "PricePerLitre", "ReceivedOn" FROM "FluidLots" WHERE "PricePerLitre" IS NOT NULL""",
        """SELECT * FROM "ShopFlags" WHERE "AnsweredAtUtc" IS NULL AND "GoneAtUtc" IS NULL""",
    ];

    private readonly WebApplication _app;

    private BoardFloor(WebApplication app) => _app = app;

    public Uri Address => new(_app.Urls.First());

    /// <param name="page">A file with the page.</param>
    public static async Task<BoardFloor> StartAsync(Func<DbConnection> connect, string page)
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        var app = builder.Build();
        app.Run(async http =>
        {
            await using (var connection = connect())
            {
                await connection.OpenAsync(http.RequestAborted);
                foreach (var query in Queries)
                {
                    await ReadAsync(connection, query, http.RequestAborted);
                }
            }

            http.Response.ContentType = "text/html; charset=utf-8";
            await http.Response.SendFileAsync(page, http.RequestAborted);
        });
        await app.StartAsync();
        return new BoardFloor(app);
    }

    public ValueTask DisposeAsync() => _app.DisposeAsync();

    private static async Task ReadAsync(DbConnection connection, string query, CancellationToken cancellationToken)
    {
        await using var command = connection.CreateCommand();
        command.CommandText = query;
        await using var rows = await command.ExecuteReaderAsync(cancellationToken);
        var row = new object[rows.FieldCount];
        while (await rows.ReadAsync(cancellationToken))
        {
            rows.GetValues(row);
        }
    }
}
