using System.Collections.Concurrent;
using System.Threading.Channels;
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

    private readonly ConcurrentDictionary<ShopLook, Seen> _seen = new();
    private readonly ConcurrentDictionary<string, bool> _failing = new(StringComparer.Ordinal);
    private readonly Channel<bool> _wake = Channel.CreateBounded<bool>(new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite });
    private int _order;

    /// <summary>Somebody with this look is on the shop floor. Who may enter nothing asks for no entry page.</summary>
    public void Expect(ShopLook look)
    {
        ArgumentNullException.ThrowIfNull(look);
        if (!look.IsOperator && !look.IsSupervisor)
        {
            return;
        }

        var now = clock.UtcNow;
        if (_seen.TryAdd(look, new(now, Interlocked.Increment(ref _order))))
        {
            Wake();
        }
        else if (_seen.TryGetValue(look, out var seen))
        {
            _seen.TryUpdate(look, seen with { LastUtc = now }, seen);
        }
    }

    /// <summary>Draws what is to be expected and does not stand ready; most of the time that is nothing.</summary>
    /// <returns>How many pages were to be drawn.</returns>
    public async Task<int> DrawAsync(CancellationToken cancellationToken)
    {
        var since = clock.UtcNow - Expected;
        var seen = _seen.ToArray().Where(l => l.Value.LastUtc > since).OrderBy(l => l.Value.Order).Select(l => l.Key).ToList();
        if (seen.Count == 0)
        {
            return 0;
        }

        var stamps = await query.StampsAsync(cancellationToken);
        // Whole looks, and the same ones for as long as they are seen: where not all find room, they must not push each other out.
        var ready = seen.Take(KeptEntryPages.MostReady / Math.Max(stamps.Count, 1)).ToHashSet();
        pages.KeepReady(ready);
        var missing = ready.SelectMany(_ => stamps, (look, sump) => (Look: look, Tag: sump.SumpTag, sump.Stamp)).Where(p => !pages.Holds(p.Look, p.Tag, p.Stamp)).ToList();
        foreach (var page in missing)
        {
            await DrawAsync(page.Look, page.Tag, cancellationToken);
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
        catch (Exception failure) when (failure is not OperationCanceledException)
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
        catch (Exception failure) when (!cancellationToken.IsCancellationRequested)
        {
            // The database is away or busy; the next time draws the same, and whoever asks meanwhile has their page drawn for them.
            log.EntryPagesFailed(failure);
        }
    }

    // A page that cannot be drawn stands in nobody's way but its own: whoever asks for it is told so.
    private async Task DrawAsync(ShopLook look, string tag, CancellationToken cancellationToken)
    {
        try
        {
            await pages.DrawAsync(look, tag, cancellationToken);
            _failing.TryRemove(tag, out _);
        }
        catch (Exception failure) when (!cancellationToken.IsCancellationRequested)
        {
            // Tried again each time, and said once.
            if (_failing.TryAdd(tag, true))
            {
                log.EntryPageFailed(tag, failure);
            }
        }
    }

    /// <param name="Order">Who came first.</param>
    private sealed record Seen(DateTime LastUtc, int Order);
}
