using System.Diagnostics;
using ShopFluids.EndToEnd.Tests.Browser;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.Walks;

/// <summary>Waits for what comes about by itself.</summary>
internal static class Waiting
{
    private static readonly TimeSpan Step = TimeSpan.FromMilliseconds(20);

    public static async Task UntilAsync(Func<Task<bool>> isSo)
    {
        var waited = Stopwatch.StartNew();
        while (!await isSo())
        {
            Assert.True(waited.Elapsed.TotalMilliseconds < Visit.PatienceMilliseconds, "It did not come about in time.");
            await Task.Delay(Step);
        }
    }
}
