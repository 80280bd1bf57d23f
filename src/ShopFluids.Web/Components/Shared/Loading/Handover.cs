using System.Collections.Concurrent;
using System.Security.Cryptography;

namespace ShopFluids.Web.Components.Shared.Loading;

/// <summary>
/// What a page was drawn with ahead waits here for its circuit, which comes at once or not at all. Whoever knows the ticket takes it, once; the ticket travels
/// only in the protected state of the page of the person for whom it was drawn.
/// </summary>
public sealed class Handover(TimeProvider time)
{
    /// <summary>Longer than a browser needs to open its circuit, and no longer than anybody wants to see what was true before.</summary>
    public static readonly TimeSpan Kept = TimeSpan.FromSeconds(30);

    /// <summary>More than browsers that come at the same moment; beyond that a page loads by itself.</summary>
    public const int Most = 200;

    private const int TicketDigits = 32;
    private readonly ConcurrentDictionary<string, (object What, DateTimeOffset Until)> _left = new(StringComparer.Ordinal);

    /// <returns>The ticket; nobody guesses it.</returns>
    public string Leave(object what)
    {
        ArgumentNullException.ThrowIfNull(what);
        var now = time.GetUtcNow();
        foreach (var (old, left) in _left)
        {
            if (left.Until <= now)
            {
                _left.TryRemove(old, out _);
            }
        }

        var ticket = RandomNumberGenerator.GetHexString(TicketDigits);
        if (_left.Count < Most)
        {
            _left[ticket] = (what, now + Kept);
        }

        return ticket;
    }

    /// <returns>Null where nothing waits under the ticket any more.</returns>
    public T? Take<T>(string? ticket)
        where T : class =>
        ticket is not null && _left.TryRemove(ticket, out var left) && left.Until > time.GetUtcNow() ? left.What as T : null;
}
