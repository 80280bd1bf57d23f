using System.Globalization;
using ShopFluids.Core.DemoData;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;

namespace ShopFluids.Web.Startup;

/// <summary>Loads the demo shop at the first start, and says at every start how to get in.</summary>
internal sealed class DemoStart(DemoShop demo, DemoAccounts accounts)
{
    private const string SeedFolder = "demo-seed";
    private const int StepPercent = 10;

    /// <returns>False when the database holds something else; why is written.</returns>
    public async Task<bool> LoadAsync(TextWriter output, TextWriter error, CancellationToken cancellationToken)
    {
        var result = await demo.LoadAsync(Path.Combine(AppContext.BaseDirectory, SeedFolder), new LinePerStep(output), cancellationToken);
        if (result.Value is not { } loaded)
        {
            await error.WriteLineAsync(Texts.Start_DemoBrokenOff);
            return false;
        }

        accounts.Show([.. loaded.SignIns.Select(s => new DemoAccount(s.SignInName, s.Password, RoleNames.Of(s.Role), s.Pin))]);
        await output.WriteLineAsync(string.Format(CultureInfo.InvariantCulture, Texts.Start_DemoToken, loaded.ApiToken));
        return true;
    }

    /// <summary>A line for every tenth; written where it is reported, so that the lines keep their order.</summary>
    private sealed class LinePerStep(TextWriter output) : IProgress<DemoProgress>
    {
        private int _next;

        public void Report(DemoProgress value)
        {
            if (value.Percent < _next)
            {
                return;
            }

            _next = value.Percent - (value.Percent % StepPercent) + StepPercent;
            output.WriteLine(string.Format(CultureInfo.InvariantCulture, Texts.Start_DemoProgress, value.Percent, value.Day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)));
        }
    }
}
