using System.Collections.Concurrent;

namespace ShopFluids.Core.Live;

/// <summary>
/// Tells open pages of this instance that a sump changed. Pages of other instances look again by their own timer. A listener
/// is called on the writer's thread and only notes that there is news.
/// </summary>
public sealed class ShopNews
{
    private readonly ConcurrentDictionary<Guid, Action<Guid>> _listeners = new();

    /// <param name="listenerId">Any id of the listener's own.</param>
    /// <param name="heard">Called with the sump's id; must not throw and must not wait.</param>
    public IDisposable Listen(Guid listenerId, Action<Guid> heard)
    {
        _listeners[listenerId] = heard;
        return new Subscription(_listeners, listenerId);
    }

    public void Publish(Guid sumpId)
    {
        foreach (var heard in _listeners.Values)
        {
            heard(sumpId);
        }
    }

    private sealed class Subscription(ConcurrentDictionary<Guid, Action<Guid>> listeners, Guid id) : IDisposable
    {
        public void Dispose() => listeners.TryRemove(id, out _);
    }
}
