using System.Collections.Concurrent;
using System.Net;
using System.Net.Sockets;

namespace ShopFluids.EndToEnd.Tests.Server;

/// <summary>How the way to the server is.</summary>
internal enum NetworkState
{
    Fine,

    /// <summary>The server gets a reading and answers, and the connection breaks before the tablet hears it.</summary>
    AnswersLost,

    /// <summary>The same, and the tablet goes on waiting.</summary>
    AnswersHeld,

    /// <summary>503 to everything.</summary>
    Refusing,

    /// <summary>Nobody listens at the server's address.</summary>
    Gone,
}

/// <summary>The way from one tablet to the server, byte for byte as it is unless told otherwise. A browser sends a request only after the answer to the one before.</summary>
internal sealed class FaultyNetwork : IAsyncDisposable
{
    private static readonly byte[] Busy = "HTTP/1.1 503 Service Unavailable\r\nContent-Type: text/plain\r\nContent-Length: 4\r\nConnection: close\r\n\r\nbusy"u8.ToArray();

    private readonly Uri _server;

    // Nobody else may get the port while the server is gone.
    private readonly Socket _place = Reusing();
    private readonly ConcurrentDictionary<Connection, Task> _open = new();
    private Socket? _listener;
    private Task _accepting = Task.CompletedTask;
    private volatile NetworkState _state;
    private int _lost;

    public FaultyNetwork(Uri server)
    {
        _server = server;
        _place.Bind(new IPEndPoint(IPAddress.Loopback, 0));
        Address = new Uri($"http://{_place.LocalEndPoint}");
        Listen();
    }

    /// <summary>Where the tablet finds the server.</summary>
    public Uri Address { get; }

    public NetworkState State => _state;

    /// <summary>How many answers to a reading did not reach the tablet so far.</summary>
    public int Lost => Volatile.Read(ref _lost);

    public async Task BecomeAsync(NetworkState state)
    {
        if (state != NetworkState.Gone && _listener is null)
        {
            Listen();
        }

        _state = state;
        if (state == NetworkState.Gone)
        {
            await HangUpAsync();
        }
    }

    public async ValueTask DisposeAsync()
    {
        await HangUpAsync();
        _place.Dispose();
    }

    private static Socket Reusing()
    {
        var socket = new Socket(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp) { NoDelay = true };
        socket.SetSocketOption(SocketOptionLevel.Socket, SocketOptionName.ReuseAddress, true);
        return socket;
    }

    private void Listen()
    {
        _listener = Reusing();
        _listener.Bind(_place.LocalEndPoint!);
        _listener.Listen();
        _accepting = AcceptAsync(_listener);
    }

    private async Task HangUpAsync()
    {
        _listener?.Dispose();
        _listener = null;
        await _accepting;
        foreach (var (connection, relaying) in _open)
        {
            connection.Break();
            await relaying;
        }
    }

    private async Task AcceptAsync(Socket listener)
    {
        try
        {
            while (true)
            {
                var connection = new Connection(this, await listener.AcceptAsync());
                _open[connection] = RelayAsync(connection);
            }
        }
        catch (Exception fault) when (fault is SocketException or ObjectDisposedException)
        {
            // Nobody listens any more.
        }
    }

    private async Task RelayAsync(Connection connection)
    {
        await Task.Yield();
        await connection.RelayAsync();
        _open.TryRemove(connection, out _);
    }

    /// <summary>One connection of the browser, and its other half to the server.</summary>
    private sealed class Connection(FaultyNetwork network, Socket browser)
    {
        private readonly Socket _server = new(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp) { NoDelay = true };
        private readonly CancellationTokenSource _end = new();
        private volatile bool _carriesReading;

        public void Break()
        {
            try
            {
                _end.Cancel();
            }
            catch (ObjectDisposedException)
            {
                // It has ended by itself.
            }
        }

        public async Task RelayAsync()
        {
            try
            {
                browser.NoDelay = true;
                await _server.ConnectAsync(network._server.Host, network._server.Port, _end.Token);
                await await Task.WhenAny(SendAsync(), AnswerAsync());
            }
            catch (Exception fault) when (fault is SocketException or OperationCanceledException)
            {
                // Either end hung up, or the network did: the other end is hung up on below.
            }

            await _end.CancelAsync();
            browser.Dispose();
            _server.Dispose();
            _end.Dispose();
        }

        private async Task SendAsync()
        {
            var buffer = new byte[64 * 1024];
            while (await browser.ReceiveAsync(buffer, _end.Token) is var length and > 0)
            {
                var part = buffer.AsMemory(0, length);
                if (network.State == NetworkState.Refusing)
                {
                    // Closed before everything is read, the answer would be lost too.
                    await SendAllAsync(browser, Busy);
                    browser.Shutdown(SocketShutdown.Send);
                    while (await browser.ReceiveAsync(buffer, _end.Token) > 0)
                    {
                    }

                    return;
                }

                if (part.Span.StartsWith("GET "u8) || part.Span.StartsWith("POST "u8))
                {
                    _carriesReading = part.Span.StartsWith("POST /enter/"u8);
                }

                await SendAllAsync(_server, part);
            }
        }

        private async Task AnswerAsync()
        {
            var buffer = new byte[64 * 1024];
            while (await _server.ReceiveAsync(buffer, _end.Token) is var length and > 0)
            {
                if (_carriesReading && network.State is NetworkState.AnswersLost or NetworkState.AnswersHeld)
                {
                    Interlocked.Increment(ref network._lost);
                    await (network.State == NetworkState.AnswersHeld ? Task.Delay(Timeout.Infinite, _end.Token) : Task.CompletedTask);
                    return;
                }

                await SendAllAsync(browser, buffer.AsMemory(0, length));
            }
        }

        private async Task SendAllAsync(Socket to, ReadOnlyMemory<byte> part)
        {
            while (part.Length > 0)
            {
                part = part[await to.SendAsync(part, _end.Token)..];
            }
        }
    }
}
