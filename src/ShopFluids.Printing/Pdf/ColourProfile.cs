using PdfSharp.Pdf;

namespace ShopFluids.Printing.Pdf;

/// <summary>
/// Says what the greys of a file mean, which a file that is kept must (PDF/A, ISO 19005-2, 6.2.3: an output intent with a colour profile).
/// The profile is the ICC's sRGB, which comes with the library. The library's own way to PDF/A asks for tags on all that is drawn.
/// </summary>
internal static class ColourProfile
{
    private const string Resource = "PdfSharp.Resources.sRGB2014.icc";
    private static readonly Lazy<byte[]> Profile = new(Read);

    public static void Declare(PdfDocument pdf)
    {
        var profile = new PdfDictionary(pdf);
        profile.CreateStream(Profile.Value);
        profile.Elements.SetInteger("/N", 3);
        profile.Stream.Zip();
        pdf.Internals.AddObject(profile);

        var intent = new PdfDictionary(pdf);
        intent.Elements.SetName("/Type", "/OutputIntent");
        intent.Elements.SetName("/S", "/GTS_PDFA1");
        intent.Elements.SetString("/OutputConditionIdentifier", "sRGB");
        intent.Elements.SetString("/Info", "sRGB");
        intent.Elements.SetReference("/DestOutputProfile", profile);
        pdf.Internals.Catalog.Elements["/OutputIntents"] = new PdfArray(pdf, intent);
    }

    private static byte[] Read()
    {
        using var source = typeof(PdfDocument).Assembly.GetManifestResourceStream(Resource) ?? throw new InvalidOperationException($"The PDF library holds no {Resource}.");
        using var profile = new MemoryStream();
        source.CopyTo(profile);
        return profile.ToArray();
    }
}
