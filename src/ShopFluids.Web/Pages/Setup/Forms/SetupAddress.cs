namespace ShopFluids.Web.Pages.Setup.Forms;

/// <summary>Addresses of set-up pages that are about one thing.</summary>
public static class SetupAddress
{
    public static string Fill(string sumpTag) => $"setup/charges/fill?sump={Uri.EscapeDataString(sumpTag)}";

    public static string Drain(string sumpTag) => $"setup/charges/drain?sump={Uri.EscapeDataString(sumpTag)}";

    public static string Care(string sumpTag) => $"setup/care?sump={Uri.EscapeDataString(sumpTag)}";

    public static string CareTemplate(string sumpTag) => $"setup/care/template?sump={Uri.EscapeDataString(sumpTag)}";

    public static string LimitsOfSump(string sumpTag) => $"setup/limits?sump={Uri.EscapeDataString(sumpTag)}";

    public static string LimitsOfFluid(Guid fluidId) => $"setup/limits?fluid={fluidId}";

    public static string Machine(string tag) => $"setup/machines/{Uri.EscapeDataString(tag)}";

    public static string Sump(string tag) => $"setup/sumps/{Uri.EscapeDataString(tag)}/change";

    public static string Instrument(string tag) => $"setup/instruments/{Uri.EscapeDataString(tag)}";

    public static string Area(Guid id) => $"setup/areas/{id:D}";

    public static string Water(Guid id) => $"setup/waters/{id:D}";

    public static string Fluid(Guid id) => $"setup/fluids/{id:D}";

    public static string Sumps(string addedTag) => $"setup/sumps?added={Uri.EscapeDataString(addedTag)}";
}
