using System.Diagnostics;
using System.Net;
using System.Net.Sockets;

namespace ShopFluids.Benchmarks;

/// <summary>The real server as its own process.</summary>
internal sealed class BenchServer : IAsyncDisposable
{
    private readonly Process _process;

    private BenchServer(Process process, Uri address, string memoryPipe)
    {
        _process = process;
        Address = address;
        MemoryPipe = memoryPipe;
    }

    public Uri Address { get; }

    /// <summary>Where <see cref="StartupHook"/> tells how much memory is in use.</summary>
    public string MemoryPipe { get; }

    public static async Task<BenchServer> StartAsync(string folder, string engine, string connectionString)
    {
        var address = new Uri($"http://127.0.0.1:{FreePort()}");
        var memoryPipe = $"shopfluids-bench-{Guid.CreateVersion7():N}";
        var start = new ProcessStartInfo("dotnet", [ServerFile()])
        {
            UseShellExecute = false,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = folder,
            Environment =
            {
                // Its own: the key in it fits one record.
                ["SHOPFLUIDS_DATA"] = Path.Combine(folder, Path.GetRandomFileName()),
                ["SHOPFLUIDS_DATABASE_ENGINE"] = engine,
                ["SHOPFLUIDS_DATABASE_CONNECTION"] = connectionString,
                ["SHOPFLUIDS_URLS"] = address.ToString(),
                ["DOTNET_STARTUP_HOOKS"] = typeof(StartupHook).Assembly.Location,
                ["BENCH_MEMORY_PIPE"] = memoryPipe,
            },
        };
        // What is set for the benchmarks is no setting of the program, which refuses such.
        foreach (var name in start.Environment.Keys.Where(n => n.StartsWith("SHOPFLUIDS_TEST_", StringComparison.Ordinal) || n.StartsWith("SHOPFLUIDS_BENCH_", StringComparison.Ordinal)).ToList())
        {
            start.Environment.Remove(name);
        }

        var process = Process.Start(start) ?? throw new InvalidOperationException("The server did not start.");
        process.OutputDataReceived += static (_, _) => { };
        process.ErrorDataReceived += static (_, _) => { };
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
        var server = new BenchServer(process, address, memoryPipe);
        await server.WaitAsync();
        return server;
    }

    public async ValueTask DisposeAsync()
    {
        _process.Kill(entireProcessTree: true);
        await _process.WaitForExitAsync();
        _process.Dispose();
    }

    private async Task WaitAsync()
    {
        using var client = new HttpClient { BaseAddress = Address };
        for (var attempt = 0; attempt < 300; attempt++)
        {
            if (_process.HasExited)
            {
                throw new InvalidOperationException($"The server ended with exit code {_process.ExitCode}.");
            }

            try
            {
                if ((await client.GetAsync(new Uri("/health/ready", UriKind.Relative))).IsSuccessStatusCode)
                {
                    return;
                }
            }
            catch (HttpRequestException) when (attempt < 299)
            {
                // Not listening yet; asked again below.
            }

            await Task.Delay(100);
        }

        throw new InvalidOperationException("The server was not ready within 30 s.");
    }

    private static string ServerFile()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "ShopFluids.sln")))
        {
            folder = folder.Parent ?? throw new InvalidOperationException("The benchmarks run inside the repository.");
        }

        return Path.Combine(folder.FullName, "src", "ShopFluids.Web", "bin", "Release", "net10.0", "shopfluids.dll");
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
