using System.Net;
using System.Net.Sockets;
using System.Text;

namespace ShopFluids.Web.Tests.Escalations;

/// <summary>A mail relay on a port of this machine that takes one letter after the other, or refuses the first receiver.</summary>
internal sealed class LocalRelay : IAsyncDisposable
{
    private readonly TcpListener _listener = new(IPAddress.Loopback, 0);
    private readonly CancellationTokenSource _stop = new();
    private readonly List<Letter> _letters = [];
    private readonly bool _refuses;
    private readonly Task _work;
    private bool _isOver;

    public LocalRelay(bool refuses = false)
    {
        _refuses = refuses;
        _listener.Start();
        _work = WorkAsync();
    }

    public int Port => ((IPEndPoint)_listener.LocalEndpoint).Port;

    public IReadOnlyList<Letter> Letters
    {
        get
        {
            lock (_letters)
            {
                return [.. _letters];
            }
        }
    }

    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync();
        _listener.Stop();
        await _work;
        _stop.Dispose();
    }

    private async Task WorkAsync()
    {
        try
        {
            while (!_isOver)
            {
                using var client = await _listener.AcceptTcpClientAsync(_stop.Token);
                await TalkAsync(client.GetStream());
            }
        }
        catch (Exception ended) when (ended is OperationCanceledException or IOException or SocketException)
        {
            // The test is over, or the other side went away.
            _isOver = true;
        }
    }

    private async Task TalkAsync(NetworkStream stream)
    {
        using var reader = new StreamReader(stream, Encoding.ASCII);
        await using var writer = new StreamWriter(stream, Encoding.ASCII) { NewLine = "\r\n", AutoFlush = true };
        await writer.WriteLineAsync("220 relay");
        var (from, to) = ("", new List<string>());
        while (await reader.ReadLineAsync(_stop.Token) is { } line)
        {
            switch (line.Split(' ', ':')[0].ToUpperInvariant())
            {
                case "MAIL":
                    from = line;
                    await writer.WriteLineAsync("250 ok");
                    break;
                case "RCPT":
                    to.Add(line);
                    await writer.WriteLineAsync(_refuses ? "550 no such box" : "250 ok");
                    break;
                case "DATA":
                    await writer.WriteLineAsync("354 go on");
                    var text = new StringBuilder();
                    while (await reader.ReadLineAsync(_stop.Token) is { } row && row != ".")
                    {
                        text.AppendLine(row);
                    }

                    lock (_letters)
                    {
                        _letters.Add(new(from, to, text.ToString()));
                    }

                    await writer.WriteLineAsync("250 taken");
                    break;
                case "QUIT":
                    await writer.WriteLineAsync("221 bye");
                    return;
                default:
                    await writer.WriteLineAsync("250 relay");
                    break;
            }
        }
    }

    internal sealed record Letter(string From, IReadOnlyList<string> To, string Text);
}
