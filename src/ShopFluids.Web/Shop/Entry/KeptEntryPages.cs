using System.Collections.Concurrent;
using ShopFluids.Core.Database;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Time;

namespace ShopFluids.Web.Shop.Entry;

/// <summary>
/// Fresh entry pages as they were drawn, for each look. A tablet asks for those of its whole round every ten minutes, so that the round goes on without
/// Wi-Fi; nearly all of them are what they were. One question to the database tells whether a page is.
/// </summary>
/// <remarks>No memory cache of the framework: one with a limit of size can lose count of what it holds and then keeps nothing any more (dotnet/runtime#129186).</remarks>
internal sealed class KeptEntryPages(EntryPageDrawer drawer, EntryPageQuery query, ShopClock clock)
{
    /// <summary>About 55 MB. Those that are not kept ready go first, and of these those that nobody asked for longest.</summary>
    public const int MostPages = 1600;

    /// <summary>So many may be kept ready: there is room for others beside them.</summary>
    public const int MostReady = 1200;

    private const int LetGoAtOnce = MostPages / 10;

    private readonly ConcurrentDictionary<Key, Kept> _kept = new();
    private IReadOnlySet<ShopLook> _ready = new HashSet<ShopLook>();

    /// <returns>The page as it was drawn where it holds, drawn now where it does not; why there is none.</returns>
    public async Task<Result<DrawnPage>> PageAsync(ShopLook look, string tag, CancellationToken cancellationToken) =>
        await FindAsync(look, tag, cancellationToken) is { } page ? page : await DrawAsync(look, tag, cancellationToken);

    /// <returns>The page as it would be drawn now; null where that has to be done.</returns>
    public async Task<DrawnPage?> FindAsync(ShopLook look, string tag, CancellationToken cancellationToken)
    {
        var key = Key.Of(look, tag);
        if (!_kept.TryGetValue(key, out var kept) || !kept.HoldsAt(clock.UtcNow) || await query.StampAsync(kept.SumpId, cancellationToken) != kept.Stamp)
        {
            return null;
        }

        _kept.TryUpdate(key, kept with { AskedForUtc = clock.UtcNow }, kept);
        return kept.Page;
    }

    /// <summary>Pages in these looks are kept, whoever asks for others.</summary>
    public void KeepReady(IReadOnlySet<ShopLook> looks) => Volatile.Write(ref _ready, looks);

    /// <summary>Whether what is kept holds now.</summary>
    /// <param name="stamp">Of this sump, just read.</param>
    public bool Holds(ShopLook look, string tag, EntryPageStamp stamp) => _kept.TryGetValue(Key.Of(look, tag), out var kept) && kept.HoldsAt(clock.UtcNow) && kept.Stamp == stamp;

    /// <summary>Draws the page and keeps it.</summary>
    /// <returns>The page; why there is none.</returns>
    public async Task<Result<DrawnPage>> DrawAsync(ShopLook look, string tag, CancellationToken cancellationToken)
    {
        if ((await drawer.DrawAsync(look, tag, cancellationToken)).IsRefused(out var refusal, out var drawn))
        {
            return refusal;
        }

        var page = drawn.Page;
        _kept[Key.Of(look, tag)] = new(page.Place.SumpId, page.Stamp, page.NowUtc, page.HoldsUntilUtc, drawn.Html, page.NowUtc);
        LetGo();
        return drawn.Html;
    }

    private void LetGo()
    {
        if (_kept.Count > MostPages)
        {
            var ready = Volatile.Read(ref _ready);
            // As it stands at one moment: others ask, draw and let go meanwhile.
            foreach (var (key, _) in _kept.ToArray().OrderBy(k => ready.Contains(k.Key.Look)).ThenBy(k => k.Value.AskedForUtc).Take(LetGoAtOnce))
            {
                _kept.TryRemove(key, out _);
            }
        }
    }

    private sealed record Key(ShopLook Look, string Tag)
    {
        public static Key Of(ShopLook look, string tag) => new(look, Tags.Key(tag));
    }

    /// <param name="FromUtc">The clock may be set back.</param>
    private sealed record Kept(Guid SumpId, EntryPageStamp Stamp, DateTime FromUtc, DateTime UntilUtc, DrawnPage Page, DateTime AskedForUtc)
    {
        public bool HoldsAt(DateTime nowUtc) => nowUtc >= FromUtc && nowUtc < UntilUtc;
    }
}
