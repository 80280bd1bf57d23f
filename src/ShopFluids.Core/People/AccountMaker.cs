using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.People.Numbers;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.People;

/// <summary>Puts accounts and their roles into an open write; shared by the commands that make or change them.</summary>
public sealed class AccountMaker(ILookupNormalizer names, IPasswordHasher<Person> passwords, ShopClock clock)
{
    public string Normalize(string signInName) => names.NormalizeName(signInName);

    internal Person Make(Guid id, string signInName, string displayName, string password, string theme)
    {
        var person = new Person
        {
            Id = id,
            UserName = signInName,
            NormalizedUserName = Normalize(signInName),
            DisplayName = displayName,
            Theme = theme,
            LockoutEnabled = true,
        };
        SetPassword(person, password);
        return person;
    }

    /// <summary>Ends every sign-in of the person too: the stamp is what their cookies are checked against.</summary>
    internal void SetPassword(Person person, string password)
    {
        person.PasswordHash = passwords.HashPassword(person, password);
        person.AccessFailedCount = 0;
        person.LockoutEnd = null;
        Restamp(person);
    }

    /// <summary>Ends the account for good: nothing of it lets anybody in, and of the person only the number is left.</summary>
    internal async Task CloseAsync(ShopFluidsDbContext database, Person person, PersonNumber number, DateTime atUtc, CancellationToken cancellationToken)
    {
        (person.DisplayName, person.UserName, person.NormalizedUserName) = (number.Label, number.SignInName, Normalize(number.SignInName));
        (person.PasswordHash, person.PinHash, person.Units, person.LeftAtUtc) = (null, null, null, atUtc);
        await SetRolesAsync(database, person.Id, [], cancellationToken);
        Restamp(person);
    }

    internal void Restamp(Person person)
    {
        person.SecurityStamp = clock.NewId().ToString("N");
        person.ConcurrencyStamp = clock.NewId().ToString("N");
    }

    /// <summary>Gives exactly these roles.</summary>
    internal async Task SetRolesAsync(ShopFluidsDbContext database, Guid personId, IReadOnlyList<string> roles, CancellationToken cancellationToken)
    {
        var known = await database.Roles.ToDictionaryAsync(r => r.Name ?? "", cancellationToken);
        var held = await database.UserRoles.Where(r => r.UserId == personId).ToListAsync(cancellationToken);
        database.RemoveRange(held);
        foreach (var name in roles.Distinct())
        {
            if (!known.TryGetValue(name, out var role))
            {
                role = new IdentityRole<Guid>(name) { Id = clock.NewId(), NormalizedName = names.NormalizeName(name), ConcurrencyStamp = clock.NewId().ToString("N") };
                database.Add(role);
                known.Add(name, role);
            }

            if (held.Find(h => h.RoleId == role.Id) is { } kept)
            {
                database.Entry(kept).State = EntityState.Unchanged;
            }
            else
            {
                database.Add(new IdentityUserRole<Guid> { UserId = personId, RoleId = role.Id });
            }
        }
    }
}
