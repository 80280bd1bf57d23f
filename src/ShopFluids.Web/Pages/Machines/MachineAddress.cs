namespace ShopFluids.Web.Pages.Machines;

/// <summary>Addresses of a machine's pages, relative to the base of the site.</summary>
internal static class MachineAddress
{
    public static string Of(string tag) => $"machines/{Uri.EscapeDataString(tag)}";

    public static string Sheet(string tag) => $"sheets/machines/{Uri.EscapeDataString(tag)}/history.pdf";
}
