using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Wording;

namespace ShopFluids.Core.People;

public sealed record AccountRow(Guid Id, string SignInName, string DisplayName, IReadOnlyList<string> Roles, DateTimeOffset? LockedUntil, UnitSystem? Units, string Theme, bool HasPin)
{
    /// <summary>How the record calls the person; null for an account that has no number yet.</summary>
    public string? Label { get; init; }

    /// <summary>When the name was replaced by the number; null for who has not left.</summary>
    public DateTime? LeftAtUtc { get; init; }
}

public sealed record TokenRow(Guid Id, string Name, string SignInName, DateTime CreatedAtUtc, DateTime? RevokedAtUtc);

/// <summary>Whom a working token acts for.</summary>
public sealed record TokenHolder(Guid PersonId, string SignInName, string DisplayName, IReadOnlyList<string> Roles);

/// <summary>Who may sign in, and which programs may act for them.</summary>
public sealed class AccountsQuery(ShopDatabase shop)
{
    public async Task<bool> AnyAsync(CancellationToken cancellationToken)
    {
        await using var database = await shop.ReadAsync(cancellationToken);
        return await database.Users.AnyAsync(cancellationToken);
    }

    public async Task<IReadOnlyList<AccountRow>> AllAsync(CancellationToken cancellationToken)
    {
        await using var database = await shop.ReadAsync(cancellationToken);
        var people = await database.Users.AsNoTracking().OrderBy(p => p.UserName).ToListAsync(cancellationToken);
        var roles = await (from held in database.UserRoles
                           join role in database.Roles on held.RoleId equals role.Id
                           select new { held.UserId, role.Name }).ToListAsync(cancellationToken);
        var numbers = await database.PersonNumbers.AsNoTracking().ToDictionaryAsync(n => n.Id, n => n.Label, cancellationToken);
        return people.ConvertAll(p => new AccountRow(
            p.Id,
            p.UserName ?? "",
            p.DisplayName,
            roles.Where(r => r.UserId == p.Id).Select(r => r.Name ?? "").Order(StringComparer.Ordinal).ToList(),
            p.LockoutEnd,
            p.Units,
            p.Theme,
            p.PinHash is not null)
        {
            Label = numbers.GetValueOrDefault(p.Id),
            LeftAtUtc = p.LeftAtUtc,
        });
    }

    public async Task<IReadOnlyList<TokenRow>> TokensAsync(CancellationToken cancellationToken)
    {
        await using var database = await shop.ReadAsync(cancellationToken);
        return await (from token in database.ApiTokens
                      join person in database.Users on token.PersonId equals person.Id
                      orderby token.CreatedAtUtc, token.Id
                      select new TokenRow(token.Id, token.Name, person.UserName ?? "", token.CreatedAtUtc, token.RevokedAtUtc)).ToListAsync(cancellationToken);
    }

    /// <summary>What a sign-in of this person must carry to count: it changes with the password and the roles.</summary>
    /// <returns>Null when there is no such account.</returns>
    public async Task<string?> StampAsync(Guid personId, CancellationToken cancellationToken)
    {
        await using var database = await shop.ReadAsync(cancellationToken);
        return await database.Users.Where(p => p.Id == personId).Select(p => p.SecurityStamp).SingleOrDefaultAsync(cancellationToken);
    }

    /// <returns>Null when no working token has this hash.</returns>
    public async Task<TokenHolder?> FindTokenAsync(string hash, CancellationToken cancellationToken)
    {
        await using var database = await shop.ReadAsync(cancellationToken);
        var person = await (from token in database.ApiTokens
                            join holder in database.Users on token.PersonId equals holder.Id
                            where token.Hash == hash && token.RevokedAtUtc == null
                            select new { holder.Id, holder.UserName, holder.DisplayName }).SingleOrDefaultAsync(cancellationToken);
        if (person is null)
        {
            return null;
        }

        var roles = await (from held in database.UserRoles
                           join role in database.Roles on held.RoleId equals role.Id
                           where held.UserId == person.Id
                           select role.Name ?? "").ToListAsync(cancellationToken);
        return new TokenHolder(person.Id, person.UserName ?? "", person.DisplayName, roles);
    }
}
