namespace ShopFluids.Web.Account;

/// <summary>The accounts that the sign-in page shows: those of the demo shop, and none of a real one.</summary>
internal sealed class DemoAccounts
{
    public IReadOnlyList<DemoAccount> All { get; private set; } = [];

    /// <summary>Called once, before anything is served.</summary>
    public void Show(IReadOnlyList<DemoAccount> accounts) => All = accounts;
}
