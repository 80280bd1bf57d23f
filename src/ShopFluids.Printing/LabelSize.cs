namespace ShopFluids.Printing;

/// <summary>How sump labels are printed.</summary>
public enum LabelSize
{
    /// <summary>One label of 62 by 42 mm on each page, for a label printer's roll.</summary>
    Roll62 = 0,

    /// <summary>One label on each page of A6, upright.</summary>
    A6 = 1,

    /// <summary>Eighteen labels of 62 by 42 mm on a sheet, with marks to cut along.</summary>
    Sheet = 2,
}
