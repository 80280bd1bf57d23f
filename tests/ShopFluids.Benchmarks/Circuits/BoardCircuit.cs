using System.Globalization;
using System.Net;
using System.Net.WebSockets;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;

namespace ShopFluids.Benchmarks.Circuits;

/// <summary>
/// What a browser does to show the board, without showing it: it loads the page, opens the circuit that the page names, answers every call and
/// acknowledges every batch, until one of them holds the board.
/// </summary>
internal sealed partial class BoardCircuit : IAsyncDisposable
{
    private const byte EndOfHandshake = 0x1e;

    // Kinds of messages, and of completions, in the protocol of the hub.
    private const long Call = 1;
    private const long Completion = 3;
    private const long Result = 3;

    private readonly ClientWebSocket _socket = new();
    private byte[] _received = new byte[1 << 16];
    private int _count;
    private Task _answering = Task.CompletedTask;
    private string _circuitId = "";

    private BoardCircuit()
    {
    }

    /// <param name="client">Signed in.</param>
    /// <param name="cookies">The client's.</param>
    /// <param name="content">What only the loaded board holds, such as the tag of a sump.</param>
    public static async Task<BoardCircuit> OpenAsync(HttpClient client, CookieContainer cookies, Uri server, byte[] content)
    {
        var circuit = new BoardCircuit();
        try
        {
            await circuit.StartAsync(client, cookies, server, content);
            return circuit;
        }
        catch
        {
            await circuit.DisposeAsync();
            throw;
        }
    }

    /// <summary>Goes on answering, so that the circuit stays open.</summary>
    public void Stay() => _answering = AnswerAsync(content: null);

    /// <summary>Leaves as a browser does whose tab is closed: it says so, so that the server has nothing to wait for.</summary>
    public async Task LeaveAsync(HttpClient client, Uri server)
    {
        using var content = new FormUrlEncodedContent([new("circuitId", _circuitId)]);
        using var left = await client.PostAsync(new Uri(server, "/_blazor/disconnect"), content);
        left.EnsureSuccessStatusCode();
        await DisposeAsync();
    }

    public async ValueTask DisposeAsync()
    {
        _socket.Abort();
        _socket.Dispose();
        try
        {
            await _answering;
        }
        catch (Exception gone) when (gone is WebSocketException or ObjectDisposedException or OperationCanceledException)
        {
            // Aborted above, while it waited for more.
        }
    }

    private async Task StartAsync(HttpClient client, CookieContainer cookies, Uri server, byte[] content)
    {
        var address = new Uri(server, "/board");
        var page = await client.GetStringAsync(address);
        using var negotiated = await client.PostAsync(new Uri(server, "/_blazor/negotiate?negotiateVersion=1"), null);
        using var answer = JsonDocument.Parse(await negotiated.EnsureSuccessStatusCode().Content.ReadAsStreamAsync());
        var token = answer.RootElement.GetProperty("connectionToken").GetString();
        _socket.Options.Cookies = cookies;
        await _socket.ConnectAsync(new UriBuilder(server) { Scheme = "ws", Path = "/_blazor", Query = $"id={Uri.EscapeDataString(token ?? "")}" }.Uri, default);
        await _socket.SendAsync(Encoding.UTF8.GetBytes("{\"protocol\":\"blazorpack\",\"version\":1}").Append(EndOfHandshake).ToArray(), WebSocketMessageType.Binary, endOfMessage: true, default);
        while (!_received.AsSpan(0, _count).Contains(EndOfHandshake))
        {
            await ReceiveAsync();
        }

        Drop(_received.AsSpan(0, _count).IndexOf(EndOfHandshake) + 1);
        await SendAsync(PackWriter.Call("0", "StartCircuit", server.ToString(), address.ToString(), "[]", ""));
        await SendAsync(PackWriter.Call(null, "UpdateRootComponents", Components(page), State().Match(page).Groups["state"].Value));
        await AnswerAsync(content);
    }

    private static string Components(string page)
    {
        var operations = Marker().Matches(page).Select((m, i) => string.Create(CultureInfo.InvariantCulture, $"{{\"type\":\"add\",\"ssrComponentId\":{i + 1},\"marker\":{m.Groups["json"].Value}}}"));
        return $"{{\"batchId\":1,\"operations\":[{string.Join(',', operations)}]}}";
    }

    private async Task AnswerAsync(byte[]? content)
    {
        while (true)
        {
            while (Next() is { } message)
            {
                var batch = await AnswerAsync(new PackReader(message));
                if (content is not null && batch.Span.IndexOf(content) >= 0)
                {
                    return;
                }
            }

            await ReceiveAsync();
        }
    }

    /// <returns>The batch, where the message was one.</returns>
    private async Task<ReadOnlyMemory<byte>> AnswerAsync(PackReader message)
    {
        message.ReadArray();
        var kind = message.ReadInteger();
        if (kind is not (Call or Completion))
        {
            return default;
        }

        message.SkipEmptyMap();
        message.ReadText();
        if (kind == Completion)
        {
            // The only call whose answer is waited for opens the circuit.
            _circuitId = message.ReadInteger() == Result ? message.ReadText() ?? "" : "";
            return default;
        }

        var target = message.ReadText();
        message.ReadArray();
        switch (target)
        {
            case "JS.RenderBatch":
                var number = message.ReadInteger();
                var batch = message.ReadBytes();
                await SendAsync(PackWriter.Call(null, "OnRenderCompleted", number, null));
                return batch;
            case "JS.BeginInvokeJS":
                var call = message.ReadInteger();
                await SendAsync(PackWriter.Call(null, "EndInvokeJSFromDotNet", call, true, string.Create(CultureInfo.InvariantCulture, $"[{call},true,null]")));
                return default;
            case "JS.Error":
                throw new InvalidOperationException($"The circuit failed: {message.ReadText()}");
            default:
                return default;
        }
    }

    // The message is copied: what follows it moves to its place.
    private byte[]? Next()
    {
        var (length, size) = (0, 0);
        do
        {
            if (size == _count)
            {
                return null;
            }

            length |= (_received[size] & 0x7f) << (7 * size);
        }
        while ((_received[size++] & 0x80) != 0);
        if (_count < size + length)
        {
            return null;
        }

        var message = _received[size..(size + length)];
        Drop(size + length);
        return message;
    }

    private void Drop(int count)
    {
        _count -= count;
        Array.Copy(_received, count, _received, 0, _count);
    }

    private async Task ReceiveAsync()
    {
        if (_count == _received.Length)
        {
            Array.Resize(ref _received, 2 * _received.Length);
        }

        var part = await _socket.ReceiveAsync(_received.AsMemory(_count), default);
        _count += part.MessageType == WebSocketMessageType.Close ? throw new InvalidOperationException($"The circuit was closed: {_socket.CloseStatusDescription}") : part.Count;
    }

    private async Task SendAsync(ReadOnlyMemory<byte> call) => await _socket.SendAsync(call, WebSocketMessageType.Binary, endOfMessage: true, default);

    [GeneratedRegex("<!--Blazor:(?<json>\\{\"type\":\"server\".*?\\})-->", RegexOptions.None, 1000)]
    private static partial Regex Marker();

    [GeneratedRegex("<!--Blazor-Server-Component-State:(?<state>[^>]*?)-->", RegexOptions.None, 1000)]
    private static partial Regex State();
}
