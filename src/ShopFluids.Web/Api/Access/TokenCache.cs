using System.Collections.Concurrent;
using System.Security.Claims;
using ShopFluids.Core.People;
using ShopFluids.Web.Account;

namespace ShopFluids.Web.Api.Access;

/// <summary>
/// Remembers for a few seconds whom a token acts for, so that a stream of readings does not ask the database each time. A
/// revoked token, or a changed role, counts once those seconds are over, on every instance.
/// </summary>
internal sealed class TokenCache(AccountsQuery accounts, TimeProvider time)
{
    public static readonly TimeSpan RememberedFor = TimeSpan.FromSeconds(5);

    /// <summary>More tokens than any shop has; only working ones are kept, so strangers cannot fill it.</summary>
    private const int Most = 1000;

    private readonly ConcurrentDictionary<string, Entry> _entries = new();

    /// <returns>Null when the token does not work.</returns>
    public async Task<ClaimsIdentity?> FindAsync(string token, CancellationToken cancellationToken)
    {
        var hash = MakeTokenHandler.HashOf(token);
        if (_entries.TryGetValue(hash, out var entry) && time.GetElapsedTime(entry.AskedAt) < RememberedFor)
        {
            return entry.Identity;
        }

        var askedAt = time.GetTimestamp();
        var holder = await accounts.FindTokenAsync(hash, cancellationToken);
        if (holder is null)
        {
            _entries.TryRemove(hash, out _);
            return null;
        }

        if (_entries.Count >= Most)
        {
            _entries.Clear();
        }

        var identity = IdentityOf(holder);
        _entries[hash] = new Entry(identity, askedAt);
        return identity;
    }

    private static ClaimsIdentity IdentityOf(TokenHolder holder) => new(
        [
            new Claim(ClaimTypes.NameIdentifier, holder.PersonId.ToString("D")),
            new Claim(ClaimTypes.Name, holder.SignInName),
            .. PersonClaims.Of(holder.DisplayName, null, "light"),
            .. holder.Roles.Select(r => new Claim(ClaimTypes.Role, r)),
        ],
        TokenScheme.Name);

    private sealed record Entry(ClaimsIdentity Identity, long AskedAt);
}
