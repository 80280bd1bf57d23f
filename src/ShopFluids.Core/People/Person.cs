using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Core.Database;
using ShopFluids.Core.Wording;

namespace ShopFluids.Core.People;

/// <summary>Someone who signs in.</summary>
public sealed class Person : IdentityUser<Guid>
{
    /// <summary>As it stands on screens and sheets; a number once the person has left.</summary>
    public string DisplayName { get; set; } = "";

    /// <summary>What the digest of the name was taken with (<see cref="Numbers.PersonNumber"/>), in hex. Null in accounts from before there were numbers.</summary>
    public string? NameSalt { get; set; }

    /// <summary>When the name was replaced by a number. Since then nobody signs in with the account.</summary>
    public DateTime? LeftAtUtc { get; set; }

    /// <summary>The person's own choice; null takes the site's.</summary>
    public UnitSystem? Units { get; set; }

    /// <summary>light, dark or shop.</summary>
    public string Theme { get; set; } = "light";

    /// <summary>Hash of the PIN for the stations, made like a password's; null until one is set.</summary>
    public string? PinHash { get; set; }
}

/// <summary>What people may do.</summary>
public static class Roles
{
    /// <summary>Takes readings, adds, ticks off tasks.</summary>
    public const string Operator = "operator";

    /// <summary>Everything an operator may, and the board, set-up, limits, stores, corrections.</summary>
    public const string Supervisor = "supervisor";

    /// <summary>Reads and prints; changes nothing.</summary>
    public const string Auditor = "auditor";

    /// <summary>Runs the server: accounts and tokens.</summary>
    public const string Caretaker = "caretaker";

    public static IReadOnlyList<string> All { get; } = [Operator, Supervisor, Auditor, Caretaker];
}

/// <summary>A bearer token for a program; only its hash is kept.</summary>
public sealed class ApiToken : Entity
{
    private ApiToken()
    {
    }

    public ApiToken(Guid id, string name, string hash, Guid personId, DateTime createdAtUtc)
    {
        Id = id;
        Name = name;
        Hash = hash;
        PersonId = personId;
        CreatedAtUtc = createdAtUtc;
    }

    public string Name { get; private set; } = "";

    /// <summary>SHA-256 of the token in lower-case hex. The token has 256 bits of chance, so a slow hash adds nothing.</summary>
    public string Hash { get; private set; } = "";

    public Guid PersonId { get; private set; }

    public DateTime CreatedAtUtc { get; private set; }

    public DateTime? RevokedAtUtc { get; private set; }

    public void Revoke(DateTime atUtc) => RevokedAtUtc = atUtc;
}

internal sealed class PersonConfiguration : IEntityTypeConfiguration<Person>, IEntityTypeConfiguration<ApiToken>
{
    public void Configure(EntityTypeBuilder<Person> builder)
    {
        builder.Property(p => p.DisplayName).HasMaxLength(120);
        builder.Property(p => p.Theme).HasMaxLength(10);
        builder.Property(p => p.PinHash).HasMaxLength(200);
        builder.Property(p => p.NameSalt).HasMaxLength(32);
    }

    public void Configure(EntityTypeBuilder<ApiToken> builder)
    {
        builder.Property(t => t.Name).HasMaxLength(80);
        builder.Property(t => t.Hash).HasMaxLength(64);
        builder.HasIndex(t => t.Hash).IsUnique();
        builder.HasOne<Person>().WithMany().HasForeignKey(t => t.PersonId).OnDelete(DeleteBehavior.Cascade);
    }
}
