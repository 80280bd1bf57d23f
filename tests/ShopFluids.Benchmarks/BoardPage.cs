using System.Diagnostics;
using System.Globalization;
using System.IO.Pipes;
using System.Net;
using System.Text;
using ShopFluids.Benchmarks.Circuits;

namespace ShopFluids.Benchmarks;

/// <summary>Opens the board of a generated shop as a browser does, up to the batch that holds it, each time beside its floor.</summary>
internal sealed class BoardPage(BenchServer server, string signInName, string password)
{
    private const int WarmUp = 60;
    private const int Counted = 60;
    private const int FirstCircuits = 10;
    private const int MoreCircuits = 100;

    // A column of the table: it is there once the board has its rows, and no other part of the desk has it.
    private static readonly byte[] Content = Encoding.UTF8.GetBytes("c-standing");

    /// <returns>Median milliseconds, ours and the floor's; bytes of managed memory for each board that is open.</returns>
    public async Task<(double Ours, double Floor, double BytesOfACircuit)> RunAsync(string folder, string engine, string connectionString)
    {
        var cookies = new CookieContainer();
        using var client = new HttpClient(new SocketsHttpHandler { CookieContainer = cookies }) { BaseAddress = server.Address };
        await DeskSignIn.SignInAsync(client, signInName, password);
        int page, batches;
        await using (var first = await BoardCircuit.OpenAsync(client, cookies, server.Address, Content))
        {
            (page, batches) = first.Size;
        }

        await using var floor = await BoardFloor.StartAsync(
            () => ManySumps.Connect(engine == "postgres", connectionString), await FileAsync(folder, "page", page), await FileAsync(folder, "batches", batches));
        using var least = new HttpClient { BaseAddress = floor.Address };
        var (ours, floors) = (new List<double>(Counted), new List<double>(Counted));
        for (var i = 0; i < WarmUp + Counted; i++)
        {
            var started = Stopwatch.GetTimestamp();
            var circuit = await BoardCircuit.OpenAsync(client, cookies, server.Address, Content);
            var our = Stopwatch.GetElapsedTime(started).TotalMilliseconds;
            await circuit.DisposeAsync();
            started = Stopwatch.GetTimestamp();
            await least.GetByteArrayAsync(new Uri("/page", UriKind.Relative));
            await least.GetByteArrayAsync(new Uri("/batches", UriKind.Relative));
            if (i >= WarmUp)
            {
                ours.Add(our);
                floors.Add(Stopwatch.GetElapsedTime(started).TotalMilliseconds);
            }
        }

        return (Median(ours), Median(floors), await BytesOfACircuitAsync(client, cookies));
    }

    // A circuit whose browser is gone is kept for some minutes; the server forgets the oldest of these, so what is measured are only those that are open.
    private async Task<double> BytesOfACircuitAsync(HttpClient client, CookieContainer cookies)
    {
        var open = new List<BoardCircuit>();
        try
        {
            await OpenAsync(FirstCircuits);
            var before = await MemoryAsync();
            await OpenAsync(MoreCircuits);
            return (await MemoryAsync() - before) / (double)MoreCircuits;
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

    private static async Task<string> FileAsync(string folder, string name, int size)
    {
        var file = Path.Combine(folder, $"board-{name}-{Path.GetRandomFileName()}");
        await File.WriteAllBytesAsync(file, new byte[size]);
        return file;
    }

    private static double Median(List<double> values)
    {
        values.Sort();
        return values[values.Count / 2];
    }
}
