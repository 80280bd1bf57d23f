using System.Globalization;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Account;

/// <summary>The lists of the account forms.</summary>
internal static class AccountChoices
{
    private static readonly string[] Offered =
        ["en-GB", "en-US", "en-CA", "en-AU", "en-IE", "de-DE", "de-AT", "de-CH", "es-ES", "es-MX", "fr-FR", "fr-CA", "it-IT", "nl-NL", "pl-PL", "cs-CZ", "da-DK", "sv-SE", "pt-PT", "pt-BR"];

    /// <summary>How numbers and days are written, each with an example.</summary>
    public static IReadOnlyList<Choice> Cultures { get; } = [.. Offered.Select(Describe)];

    /// <summary>IANA names, those with an area, and UTC.</summary>
    public static IReadOnlyList<Choice> TimeZones { get; } =
        [.. TimeZoneInfo.GetSystemTimeZones().Select(z => z.Id).Where(id => id.Contains('/', StringComparison.Ordinal)).Append("Etc/UTC").Distinct().Order(StringComparer.Ordinal).Select(id => new Choice(id, id))];

    public static IReadOnlyList<Choice> Units =>
        [new(nameof(UnitSystem.Metric), Texts.Account_UnitsMetric), new(nameof(UnitSystem.UsCustomary), Texts.Account_UnitsUs)];

    public static IReadOnlyList<Choice> OwnUnits => [new("", Texts.Account_UnitsOfSite), .. Units];

    public static IReadOnlyList<Choice> Themes =>
        [new("light", Texts.Account_ThemeLight), new("dark", Texts.Account_ThemeDark), new("shop", Texts.Account_ThemeShop)];

    private static Choice Describe(string name)
    {
        var culture = CultureInfo.GetCultureInfo(name);
        return new Choice(name, $"{culture.EnglishName}: {1234.5m.ToString("N1", culture)} · {new DateOnly(2026, 11, 25).ToString("d MMM yyyy", culture)}");
    }
}
