namespace ShopFluids.Web.Verbs;

/// <summary>What scripts see.</summary>
public static class ExitCodes
{
    public const int Done = 0;
    public const int Failed = 1;
    public const int BadArguments = 2;
    public const int BadSettings = 3;
}
