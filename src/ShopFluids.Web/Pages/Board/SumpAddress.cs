namespace ShopFluids.Web.Pages.Board;

/// <summary>Addresses of a sump's pages, relative to the base of the site.</summary>
internal static class SumpAddress
{
    /// <summary>The place of a sump's page at which the losses of the charge stand.</summary>
    public const string LossesPlace = "losses-title";

    public static string Of(string tag) => $"sumps/{Uri.EscapeDataString(tag)}";

    /// <summary>Where on it the losses of the charge stand.</summary>
    public static string Losses(string tag) => $"{Of(tag)}#{LossesPlace}";

    public static string Enter(string tag) => $"enter/{Uri.EscapeDataString(tag)}";

    public static string Drain(string tag) => $"drain/{Uri.EscapeDataString(tag)}";

    public static string Slides(string tag) => $"slides/{Uri.EscapeDataString(tag)}";

    public static string Dose(string tag) => $"{Of(tag)}/dose";

    public static string Correct(string tag, Guid readingId) => $"{Of(tag)}/readings/{readingId:D}/correct";

    public static string Sheet(string tag) => $"sheets/sumps/{Uri.EscapeDataString(tag)}/history.pdf";
}
