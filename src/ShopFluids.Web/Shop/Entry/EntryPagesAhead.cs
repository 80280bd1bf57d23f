using System.Collections.Concurrent;
using System.Data.Common;
using System.Threading.Channels;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Live;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Time;

namespace ShopFluids.Web.Shop.Entry;

/// <summary>
/// Draws entry pages before they are asked for: all of them at the start of the server and as soon as somebody with a new look is there, those of a sump
/// as soon as something was recorded about it, and each one that time, the set-up or another instance made another within <see cref="Period"/>.
/// </summary>
internal sealed class EntryPagesAhead(KeptEntryPages pages, EntryPageQuery query, ShopLooks looks, ShopNews news, ShopClock clock, TimeProvider time, ILogger<EntryPagesAhead> log)
    : BackgroundService, IHostedLifecycleService
{
    /// <summary>What no news tells of waits no longer.</summary>
    private static readonly TimeSpan Period = TimeSpan.FromSeconds(10);

    /// <summary>Who stays away for longer, as over the holidays, waits for their first page.</summary>
    private static readonly TimeSpan Expected = TimeSpan.FromDays(7);

    private readonly ConcurrentDictionary<ShopLook, DateTime> _seen = new();
    private readonly Channel<bool> _wake = Channel.CreateBounded<bool>(new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite });

    /// <summary>Somebody with this look is on the shop floor.</summary>
    public void Expect(ShopLook look)
    {
        var now = clock.UtcNow;
        if (_seen.TryAdd(look, now))
        {
            Wake();
        }
        else
        {
            _seen[look] = now;
        }
    }

    /// <summary>Draws what is to be expected and does not stand ready; most of the time that is nothing.</summary>
    /// <returns>How many pages were drawn.</returns>
    public async Task<int> DrawAsync(CancellationToken cancellationToken)
    {
        var since = clock.UtcNow - Expected;
        var seen = _seen.ToArray().Where(l => l.Value > since).OrderByDescending(l => l.Value).ToList();
        if (seen.Count == 0)
        {
            return 0;
        }

        var stamps = await query.StampsAsync(cancellationToken);
        var missing = seen.SelectMany(_ => stamps, (look, sump) => (Look: look.Key, AskedForUtc: look.Value, Tag: sump.SumpTag, sump.Stamp))
            .Take(KeptEntryPages.MostPages)
            .Where(p => !pages.Holds(p.Look, p.Tag, p.Stamp))
            .ToList();
        foreach (var page in missing)
        {
            await pages.DrawAsync(page.Look, page.Tag, page.AskedForUtc, cancellationToken);
        }

        return missing.Count;
    }

    /// <summary>The server listens: only now are the addresses known that stand in its pages.</summary>
    public async Task StartedAsync(CancellationToken cancellationToken)
    {
        try
        {
            foreach (var look in await looks.ToBeExpectedAsync(cancellationToken))
            {
                Expect(look);
            }
        }
        catch (DbException failure)
        {
            // The database is away or busy; whoever comes is expected from then on.
            log.EntryPagesFailed(failure);
        }
    }

    public Task StartingAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StoppingAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StoppedAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var heard = news.Listen(Guid.CreateVersion7(), _ => Wake());
        await using var timer = time.CreateTimer(_ => Wake(), null, Period, Period);
        try
        {
            await foreach (var _ in _wake.Reader.ReadAllAsync(stoppingToken))
            {
                await TryToDrawAsync(stoppingToken);
            }
        }
        catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
        {
            log.EntryPagesStopped();
        }
    }

    private void Wake() => _wake.Writer.TryWrite(true);

    private async Task TryToDrawAsync(CancellationToken cancellationToken)
    {
        try
        {
            await DrawAsync(cancellationToken);
        }
        catch (Exception failure) when (failure is DbException or DbUpdateException or InvalidOperationException or ArgumentException)
        {
            // Whoever asks meanwhile has the page drawn for them, and is told what is wrong where that fails too.
            log.EntryPagesFailed(failure);
        }
    }
}
