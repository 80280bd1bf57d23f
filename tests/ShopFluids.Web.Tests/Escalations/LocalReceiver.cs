using System.Threading.Channels;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;

namespace ShopFluids.Web.Tests.Escalations;

/// <summary>A program elsewhere that takes what is posted to it, on a port of this machine.</summary>
internal sealed class LocalReceiver : IAsyncDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    private readonly WebApplication _app;
    private readonly Channel<Posted> _posted = Channel.CreateUnbounded<Posted>();

    private LocalReceiver(WebApplication app) => _app = app;

    public Uri Address { get; private set; } = new("http://127.0.0.1/");

    /// <summary>What it answers; each answer once, then 204.</summary>
    public Queue<int> Answers { get; } = new();

    public static async Task<LocalReceiver> StartAsync()
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        var receiver = new LocalReceiver(builder.Build());
        receiver._app.MapPost("/{**path}", receiver.TakeAsync);
        await receiver._app.StartAsync();
        receiver.Address = new Uri(new Uri(receiver._app.Urls.Single()), "hook?token=t0p");
        return receiver;
    }

    /// <summary>The next that was posted, also when it comes only later.</summary>
    public Task<Posted> NextAsync() => _posted.Reader.ReadAsync().AsTask().WaitAsync(Patience);

    public bool IsEmpty => !_posted.Reader.TryPeek(out _);

    public ValueTask DisposeAsync() => _app.DisposeAsync();

    private async Task TakeAsync(HttpContext http)
    {
        using var buffer = new MemoryStream();
        await http.Request.Body.CopyToAsync(buffer);
        var status = Answers.TryDequeue(out var wanted) ? wanted : StatusCodes.Status204NoContent;
        http.Response.StatusCode = status;
        if (status is >= 300 and < 400)
        {
            http.Response.Headers.Location = "/elsewhere";
        }

        _posted.Writer.TryWrite(new(http.Request.Path + http.Request.QueryString, http.Request.ContentType, http.Request.Headers.ToDictionary(h => h.Key, h => h.Value.ToString()), buffer.ToArray()));
    }

    internal sealed record Posted(string Path, string? ContentType, Dictionary<string, string> Headers, byte[] Body);
}
