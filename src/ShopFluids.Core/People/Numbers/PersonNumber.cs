using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.People.Numbers;

/// <summary>
/// All that the record holds of who a person is: a number, and a digest that vouches for the name beside it without giving it away. Its id is the
/// person's. The name itself stands in no entry, so it can go when the person has left, and the chain stays whole.
/// </summary>
public sealed class PersonNumber : Entity
{
    private const int SaltBytes = 16;
    private const string SignInStart = "person-";

    private PersonNumber()
    {
    }

    internal PersonNumber(Person person, int number)
    {
        Id = person.Id;
        Number = number;
        VouchFor(person);
    }

    /// <summary>1, 2, 3 ... in the order in which accounts were made; never given twice.</summary>
    public int Number { get; private set; }

    /// <summary>SHA-256 in lower-case hex over the person's salt and name.</summary>
    public string NameDigest { get; private set; } = "";

    /// <summary>How the person is called in the record, and everywhere once the name is gone.</summary>
    public string Label => string.Create(CultureInfo.InvariantCulture, $"Person {Number}");

    /// <summary>The sign-in name of an account that nobody signs in with any more.</summary>
    public string SignInName => string.Create(CultureInfo.InvariantCulture, $"{SignInStart}{Number}");

    /// <summary>Whether a sign-in name is kept for those who have left.</summary>
    internal static bool IsKept(string signInName) =>
        signInName.StartsWith(SignInStart, StringComparison.OrdinalIgnoreCase) && signInName.AsSpan(SignInStart.Length) is { Length: > 0 } digits && !digits.ContainsAnyExceptInRange('0', '9');

    /// <summary>Takes the name as it stands now, under a salt of its own: without the salt nobody finds the name by trying.</summary>
    internal void VouchFor(Person person)
    {
        person.NameSalt = Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(SaltBytes));
        NameDigest = DigestOf(person.NameSalt, person.DisplayName);
    }

    /// <summary>Whether the name is the one that the record vouches for.</summary>
    public bool Fits(string? salt, string displayName) => salt is not null && NameDigest == DigestOf(salt, displayName);

    private static string DigestOf(string salt, string name) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes($"{salt} {name}")));
}

internal sealed class PersonNumberConfiguration : IEntityTypeConfiguration<PersonNumber>
{
    public void Configure(EntityTypeBuilder<PersonNumber> builder)
    {
        builder.Ignore(n => n.Label);
        builder.Ignore(n => n.SignInName);
        builder.Property(n => n.NameDigest).HasMaxLength(64);
        builder.HasIndex(n => n.Number).IsUnique();
        // The person's row stays when the person has left: what they did hangs on it.
        builder.HasOne<Person>().WithOne().HasForeignKey<PersonNumber>(n => n.Id).OnDelete(DeleteBehavior.Restrict);
    }
}
