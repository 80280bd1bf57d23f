using PdfSharp.Fonts;
using ShopFluids.Printing.Fonts;

namespace ShopFluids.Printing.Pdf;

/// <summary>Gives PDFsharp the built-in faces and nothing else. Holds no state, so any number of threads may ask.</summary>
internal sealed class EmbeddedFontResolver : IFontResolver
{
    private static readonly Lock Registering = new();

    public static string Family(PrintFace face) => $"shopfluids-{face}";

    /// <summary>Makes this the resolver of the process; PDFsharp knows only one.</summary>
    public static void Register()
    {
        lock (Registering)
        {
            if (GlobalFontSettings.FontResolver is not EmbeddedFontResolver)
            {
                GlobalFontSettings.FontResolver = new EmbeddedFontResolver();
            }
        }
    }

    public FontResolverInfo? ResolveTypeface(string familyName, bool bold, bool italic) =>
        Enum.GetValues<PrintFace>().Any(f => Family(f) == familyName) ? new FontResolverInfo(familyName) : null;

    public byte[]? GetFont(string faceName) =>
        Enum.GetValues<PrintFace>().Where(f => Family(f) == faceName).Select(PrintFonts.File).FirstOrDefault();
}
