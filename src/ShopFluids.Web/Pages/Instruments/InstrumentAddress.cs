namespace ShopFluids.Web.Pages.Instruments;

/// <summary>Addresses of an instrument's page, relative to the base of the site.</summary>
internal static class InstrumentAddress
{
    public static string Of(string tag) => $"instruments/{Uri.EscapeDataString(tag)}";
}
