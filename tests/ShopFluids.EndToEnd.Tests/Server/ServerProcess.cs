using System.Collections.Concurrent;
using System.Diagnostics;
using System.Net;
using System.Net.Sockets;

namespace ShopFluids.EndToEnd.Tests.Server;

/// <summary>A running server: the real program, started as a person starts it.</summary>
internal sealed class ServerProcess : IAsyncDisposable
{
    private static readonly TimeSpan StartLimit = TimeSpan.FromMinutes(5);
    private static readonly TimeSpan Step = TimeSpan.FromMilliseconds(100);
    private readonly ConcurrentQueue<string> _lines = new();
    private readonly Process _process;
    private bool _isDisposed;

    private ServerProcess(Process process, Uri address)
    {
        _process = process;
        Address = address;
        process.OutputDataReceived += Keep;
        process.ErrorDataReceived += Keep;
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
    }

    public Uri Address { get; }

    /// <summary>Everything that it has written so far.</summary>
    public string Output => string.Join('\n', _lines);

    /// <summary>Starts the server and waits until it is ready for visitors.</summary>
    public static Task<ServerProcess> StartAsync(ServerData data, params string[] arguments) => StartAtAsync(new Uri($"http://127.0.0.1:{FreePort()}"), data, arguments);

    /// <summary>The same at an address that tablets know already.</summary>
    public static async Task<ServerProcess> StartAtAsync(Uri address, ServerData data, params string[] arguments)
    {
        var start = data.Start(arguments);
        start.Environment["SHOPFLUIDS_URLS"] = address.GetLeftPart(UriPartial.Authority);
        var server = new ServerProcess(Process.Start(start) ?? throw new InvalidOperationException("The server did not start."), address);
        try
        {
            await server.WaitAsync();
            return server;
        }
        catch
        {
            await server.DisposeAsync();
            throw;
        }
    }

    /// <summary>The rest of the first line that begins so; waits for it.</summary>
    public async Task<string> LineAsync(string beginning)
    {
        var waited = Stopwatch.StartNew();
        while (waited.Elapsed < StartLimit)
        {
            if (_lines.FirstOrDefault(l => l.StartsWith(beginning, StringComparison.Ordinal)) is { } line)
            {
                return line[beginning.Length..];
            }

            await Task.Delay(Step);
        }

        throw new InvalidOperationException($"The server wrote no line that begins with \"{beginning}\":\n{Output}");
    }

    /// <summary>Ends it as a power cut would: SIGKILL, nothing is finished, nothing is flushed.</summary>
    public void Kill()
    {
        _process.Kill();
        _process.WaitForExit();
    }

    /// <summary>Stops it; once is enough.</summary>
    public async ValueTask DisposeAsync()
    {
        if (_isDisposed)
        {
            return;
        }

        _isDisposed = true;
        if (!_process.HasExited)
        {
            _process.Kill(entireProcessTree: true);
        }

        await _process.WaitForExitAsync();
        _process.Dispose();
    }

    private async Task WaitAsync()
    {
        using var client = new HttpClient { BaseAddress = Address };
        var waited = Stopwatch.StartNew();
        while (waited.Elapsed < StartLimit)
        {
            if (_process.HasExited)
            {
                throw new InvalidOperationException($"The server ended with exit code {_process.ExitCode}:\n{Output}");
            }

            if (await IsReadyAsync(client))
            {
                return;
            }

            await Task.Delay(Step);
        }

        throw new InvalidOperationException($"The server was not ready within {StartLimit.TotalMinutes:0} minutes:\n{Output}");
    }

    private static async Task<bool> IsReadyAsync(HttpClient client)
    {
        try
        {
            using var answer = await client.GetAsync(new Uri("/health/ready", UriKind.Relative));
            return answer.IsSuccessStatusCode;
        }
        catch (HttpRequestException)
        {
            // Not listening yet.
            return false;
        }
    }

    private void Keep(object sender, DataReceivedEventArgs line)
    {
        if (line.Data is { } text)
        {
            _lines.Enqueue(text);
        }
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
