namespace ShopFluids.Printing;

/// <summary>The paper of a printed sheet, upright.</summary>
public enum PaperSize
{
    A4 = 0,
    Letter = 1,
}
