using System.Globalization;
using ShopFluids.Core.DemoData;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;

namespace ShopFluids.Web.Startup;

/// <summary>Loads the demo shop at the first start, and says at every start how to get in.</summary>
internal sealed class DemoStart(DemoShop demo, DemoAccounts accounts)
{
    /// <summary>What the demo's shop is made from; it lies beside the program.</summary>
    public static string SeedFolder => Path.Combine(AppContext.BaseDirectory, "demo-seed");

    /// <returns>False when the database holds something else; why is written.</returns>
    public async Task<bool> LoadAsync(TextWriter output, TextWriter error, CancellationToken cancellationToken)
    {
        var result = await demo.LoadAsync(SeedFolder, new DemoProgressLines(output), cancellationToken);
        if (result.Value is not { } loaded)
        {
            await error.WriteLineAsync(Texts.Start_DemoBrokenOff);
            return false;
        }

        accounts.Show([.. loaded.SignIns.Select(s => new DemoAccount(s.SignInName, s.Password, RoleNames.Of(s.Role), s.Pin))]);
        await output.WriteLineAsync(string.Format(CultureInfo.InvariantCulture, Texts.Start_DemoToken, loaded.ApiToken));
        return true;
    }
}
