using System.Diagnostics;
using System.Globalization;
using System.IO.Pipes;
using System.Net;
using System.Text;
using ShopFluids.Benchmarks.Circuits;

namespace ShopFluids.Benchmarks;

/// <summary>Fetches the board of a generated shop, whose document holds what it tells before its circuit is there, each time beside its floor; then opens its circuits as a browser does.</summary>
internal sealed class BoardPage(BenchServer server, string signInName, string password)
{
    // Enough for the server's code to be compiled for good; a shop's server is warm.
    private const int WarmUp = 600;
    private const int Counted = 100;
    private const int FirstCircuits = 10;
    private const int MoreCircuits = 100;

    // The server keeps for half a minute what it drew for a browser that does not come back; and what circuits drew into is lent by pools of the runtime, which
    // let go of it only in a full collection that comes a minute after one that found it unused. Each look at the memory is one.
    private const int LooksAfter = 3;
    private static readonly TimeSpan BetweenLooks = TimeSpan.FromSeconds(35);

    // What the last reading changed, a flag and a piece of work that are open, and a standing.
    private static readonly string[] Act =
    [
        """
        INSERT INTO "RecordEntries" ("Sequence", "AtUtc", "ActorName", "Code", "Subject", "PreviousHash", "Hash", "Changes")
        SELECT h."Sequence" + 1, e."AtUtc", e."ActorName", 'bench', e."Subject", h."Hash", h."Hash",
            '[{"entity":"Flag","key":"' || (SELECT "Id" FROM "Flags" WHERE "EndedAtUtc" IS NULL ORDER BY "Id" LIMIT 1) ||
            '"},{"entity":"CareTask","key":"' || (SELECT "Id" FROM "CareTasks" WHERE "State" = 1 ORDER BY "Id" LIMIT 1) || '"},' || substr(e."Changes", 2)
        FROM "RecordEntries" e, "RecordHead" h
        WHERE e."Sequence" = (SELECT max("Sequence") FROM "RecordEntries" WHERE "Code" = 'reading.stored')
        """,
        """UPDATE "RecordHead" SET "Sequence" = "Sequence" + 1""",
        """UPDATE "Standings" SET "Version" = "Version" + 1 WHERE "SumpId" = (SELECT "SumpId" FROM "Standings" ORDER BY "SumpId" LIMIT 1)""",
    ];

    private static readonly Uri Board = new("/board", UriKind.Relative);

    // A column of the table: it is there once the board has its rows, and no other part of the desk has it.
    private static readonly byte[] Content = Encoding.UTF8.GetBytes("c-standing");

    /// <summary>Each time after something was recorded; a board of which nothing is new is shared and costs less.</summary>
    public async Task<BoardMeasures> RunAsync(string folder, string engine, string connectionString)
    {
        var cookies = new CookieContainer();
        using var client = new HttpClient(new SocketsHttpHandler { CookieContainer = cookies }) { BaseAddress = server.Address };
        await DeskSignIn.SignInAsync(client, signInName, password);
        var file = Path.Combine(folder, $"board-{Path.GetRandomFileName()}");
        await File.WriteAllBytesAsync(file, await PageAsync(client));
        await using var floor = await BoardFloor.StartAsync(() => ManySumps.Connect(engine == "postgres", connectionString), file);
        using var least = new HttpClient { BaseAddress = floor.Address };
        var (ours, floors) = (new List<double>(Counted), new List<double>(Counted));
        for (var i = 0; i < WarmUp + Counted; i++)
        {
            await RecordAsync(engine, connectionString);
            var started = Stopwatch.GetTimestamp();
            await PageAsync(client);
            var our = Stopwatch.GetElapsedTime(started).TotalMilliseconds;
            started = Stopwatch.GetTimestamp();
            await least.GetByteArrayAsync(Board);
            if (i >= WarmUp)
            {
                ours.Add(our);
                floors.Add(Stopwatch.GetElapsedTime(started).TotalMilliseconds);
            }
        }

        var (before, open, after) = await MemoryOfCircuitsAsync(client, cookies);
        return new(Median(ours), Median(floors), (open - before) / (double)MoreCircuits, before, after);
    }

    // As far as the board can tell, somebody recorded a reading.
    private static async Task RecordAsync(string engine, string connectionString)
    {
        await using var connection = ManySumps.Connect(engine == "postgres", connectionString);
        await connection.OpenAsync();
        await using var command = connection.CreateCommand();
        foreach (var act in Act)
        {
            command.CommandText = act;
            await command.ExecuteNonQueryAsync();
        }
    }

    // Before most of them are opened, with all of them open, and after these have left.
    private async Task<(long Before, long Open, long After)> MemoryOfCircuitsAsync(HttpClient client, CookieContainer cookies)
    {
        var open = new List<BoardCircuit>();
        try
        {
            await OpenAsync(FirstCircuits);
            var before = await MemoryAsync();
            await OpenAsync(MoreCircuits);
            var most = await MemoryAsync();
            foreach (var circuit in open.Skip(FirstCircuits))
            {
                await circuit.LeaveAsync(client, server.Address);
            }

            var after = most;
            for (var look = 0; look < LooksAfter; look++)
            {
                await Task.Delay(BetweenLooks);
                after = await MemoryAsync();
            }

            return (before, most, after);
        }
        finally
        {
            foreach (var circuit in open)
            {
                await circuit.DisposeAsync();
            }
        }

        async Task OpenAsync(int count)
        {
            for (var i = 0; i < count; i++)
            {
                var circuit = await BoardCircuit.OpenAsync(client, cookies, server.Address, Content);
                circuit.Stay();
                open.Add(circuit);
            }
        }
    }

    private async Task<long> MemoryAsync()
    {
        await using var pipe = new NamedPipeClientStream(".", server.MemoryPipe, PipeDirection.In);
        await pipe.ConnectAsync();
        using var reader = new StreamReader(pipe);
        return long.Parse(await reader.ReadToEndAsync(), CultureInfo.InvariantCulture);
    }

    private static async Task<byte[]> PageAsync(HttpClient client)
    {
        var page = await client.GetByteArrayAsync(Board);
        return page.AsSpan().IndexOf(Content) >= 0 ? page : throw new InvalidOperationException("The document does not hold the board.");
    }

    private static double Median(List<double> values)
    {
        values.Sort();
        return values[values.Count / 2];
    }
}

/// <param name="Ours">Median milliseconds of our page.</param>
/// <param name="Floor">Median milliseconds of its floor.</param>
/// <param name="BytesOfACircuit">Managed memory for each board that is open.</param>
/// <param name="BytesBefore">Managed memory in use with the first of them open.</param>
/// <param name="BytesAfter">The same after the others were closed.</param>
internal sealed record BoardMeasures(double Ours, double Floor, double BytesOfACircuit, double BytesBefore, double BytesAfter);
