namespace ShopFluids.Core.CleanOuts;

/// <summary>The fields of the steps, as refusals name them.</summary>
public static class CleanOutFields
{
    public const string Content = "contentLitres";
    public const string Heel = "heelLitres";
    public const string CleanerPercent = "cleanerPercent";
    public const string CirculationHours = "circulationHours";
    public const string Rinses = "rinses";
    public const string RinseLitres = "rinseLitres";
    public const string CleanerLitres = "cleanerLitres";
    public const string Hours = "hours";
    public const string ShortReason = "shortReason";
    public const string Carrier = "carrier";
    public const string Halogens = "halogensMgPerKg";
    public const string SludgeMm = Care.Finds.FindNames.SludgeMm;
    public const string Seen = "seen";
    public const string Note = "note";
    public const string Reason = "reason";
    public const string Water = "waterLitres";
    public const string Override = "overrideReason";

    /// <summary>From 0.</summary>
    public static string WasteCode(int row) => $"wasteCode{row + 1}";

    public static string WasteLitres(int row) => $"wasteLitres{row + 1}";

    public static string Lot(int row) => row == 0 ? "lot" : $"lot{row + 1}";

    public static string Concentrate(int row) => row == 0 ? "concentrateLitres" : $"concentrateLitres{row + 1}";
}
