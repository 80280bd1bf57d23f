using System.Security.Cryptography;
using System.Text;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.People.Stations;

/// <summary>What a station's name, code and secret look like.</summary>
public static class StationRules
{
    public const int MaximumNameLength = 60;
    public const int MaximumPlaceLength = 120;

    /// <summary>Long enough to walk to the tablet with it.</summary>
    public static readonly TimeSpan CodeHolds = TimeSpan.FromMinutes(30);

    // Without I, O, 0 and 1, which look alike; 12 of 32 letters are 60 bits.
    private const string Letters = "ABCDEFGHJKLMNPQRSTUVWXYZ23456789";
    private const int CodeLength = 12;
    private const int GroupLength = 4;
    private const int SecretBytes = 32;

    /// <summary>As it is shown: XXXX-XXXX-XXXX.</summary>
    internal static string NewCode() =>
        string.Join('-', RandomNumberGenerator.GetString(Letters, CodeLength).Chunk(GroupLength).Select(g => new string(g)));

    internal static string NewSecret() => Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(SecretBytes));

    /// <summary>What is kept of a code: it may be typed with or without its hyphens, in small letters too.</summary>
    internal static string HashOfCode(string typed) =>
        HashOf(string.Concat(typed.Where(char.IsAsciiLetterOrDigit)).ToUpperInvariant());

    /// <summary>What is kept of a secret, and looked up.</summary>
    internal static string HashOf(string secret) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(secret)));

    internal static List<FieldError> Check(string name, string place, string theme)
    {
        var errors = new List<FieldError>();
        TextChecks.Check(errors, "name", name, MaximumNameLength);
        TextChecks.Check(errors, "place", place, MaximumPlaceLength, isRequired: false);
        AccountRules.CheckTheme(errors, theme);
        return errors;
    }
}

/// <summary>There is no such station, or its tablet was sent away.</summary>
public sealed record StationNotFound : Error;

/// <summary>No station waits for this code: it was typed wrong, used already, or is too old.</summary>
public sealed record StationCodeUnknown : Error;
