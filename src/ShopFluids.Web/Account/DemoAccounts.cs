namespace ShopFluids.Web.Account;

/// <summary>The accounts that the sign-in page shows: those of the demo shop, and none of a real one.</summary>
public sealed record DemoAccounts(IReadOnlyList<DemoAccount> All)
{
    public static DemoAccounts None { get; } = new([]);
}
