namespace ShopFluids.Core.Slides;

/// <summary>Names of the fields of a slide, the same on the page, in the API and in messages.</summary>
public static class SlideFields
{
    public const string Parameter = "parameter";
    public const string Incubation = "incubation";
    public const string DippedAt = "dippedAt";
    public const string ReadAt = "readAt";
    public const string Value = "value";
    public const string Reason = "reason";
}
