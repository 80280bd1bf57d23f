using ShopFluids.Core.Live;

namespace ShopFluids.Web.Components.Layout;

/// <summary>
/// Says when a page should look again: soon after news of this instance, at most once a second, and every 15 seconds anyway
/// because other instances write too.
/// </summary>
public sealed class LiveLook : IDisposable
{
    public static readonly TimeSpan Throttle = TimeSpan.FromSeconds(1);
    public static readonly TimeSpan Regular = TimeSpan.FromSeconds(15);

    private readonly IDisposable _news;
    private readonly ITimer _soon;
    private readonly ITimer _regular;
    private int _isPending;

    /// <param name="look">Called on a timer's thread; hands over to the page's own and must not throw.</param>
    /// <param name="isOfInterest">Which sumps the page shows.</param>
    public LiveLook(ShopNews news, TimeProvider time, Func<Guid, bool> isOfInterest, Action look)
    {
        _soon = time.CreateTimer(
            _ =>
            {
                Volatile.Write(ref _isPending, 0);
                look();
            },
            state: null,
            Timeout.InfiniteTimeSpan,
            Timeout.InfiniteTimeSpan);
        _regular = time.CreateTimer(_ => look(), state: null, Regular, Regular);
        _news = news.Listen(Guid.CreateVersion7(time.GetUtcNow()), sump =>
        {
            if (isOfInterest(sump) && Interlocked.Exchange(ref _isPending, 1) == 0)
            {
                _soon.Change(Throttle, Timeout.InfiniteTimeSpan);
            }
        });
    }

    public void Dispose()
    {
        _news.Dispose();
        _soon.Dispose();
        _regular.Dispose();
    }
}
