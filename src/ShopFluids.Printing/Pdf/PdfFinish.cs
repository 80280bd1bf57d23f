namespace ShopFluids.Printing.Pdf;

internal static class PdfFinish
{
    public static void Write(byte[] raw, DateTime createdUtc, Stream output) => output.Write(raw);
}
