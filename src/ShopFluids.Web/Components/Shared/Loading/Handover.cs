using System.Security.Cryptography;
using Microsoft.Extensions.Caching.Memory;

namespace ShopFluids.Web.Components.Shared.Loading;

/// <summary>What a page was drawn with ahead waits here for its circuit, which comes at once or not at all. Whoever knows the ticket takes it, once.</summary>
public sealed class Handover : IDisposable
{
    // Longer than a browser needs to open its circuit, and no longer than anybody wants to see what was true before.
    private static readonly TimeSpan Kept = TimeSpan.FromSeconds(30);

    // More than browsers that come at the same moment; beyond that a page loads by itself.
    private const int Most = 200;
    private const int TicketDigits = 32;

    private readonly MemoryCache _left = new(new MemoryCacheOptions { SizeLimit = Most });

    /// <returns>The ticket; nobody guesses it.</returns>
    public string Leave(object what)
    {
        var ticket = RandomNumberGenerator.GetHexString(TicketDigits);
        _left.Set(ticket, what, new MemoryCacheEntryOptions { AbsoluteExpirationRelativeToNow = Kept, Size = 1 });
        return ticket;
    }

    /// <returns>Null where nothing waits under the ticket any more.</returns>
    public T? Take<T>(string? ticket)
        where T : class
    {
        if (ticket is null || !_left.TryGetValue(ticket, out T? what))
        {
            return null;
        }

        _left.Remove(ticket);
        return what;
    }

    public void Dispose() => _left.Dispose();
}
