namespace ShopFluids.Core.Doses;

/// <summary>Names of the fields of a dose, the same on the page, in the API and in messages.</summary>
public static class DoseFields
{
    public const string GivenAt = "givenAt";
    public const string Product = "product";
    public const string Kind = "doseKind";
    public const string Amount = "doseAmount";
    public const string Unit = "doseUnit";
    public const string Volume = "doseVolumeLitres";
    public const string Density = "productDensity";
    public const string LabelMost = "labelMost";
    public const string LabelMeasure = "labelUnit";
    public const string LabelHours = "labelHours";
    public const string ReentryHours = "reentryHours";
    public const string Reason = "reason";
    public const string AgainstLabel = "givenAllTheSame";
    public const string StrikeReason = "strikeReason";
    public const string Safety = "safetyConfirmed";
}
