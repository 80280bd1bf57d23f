using System.Diagnostics;
using ShopFluids.EndToEnd.Tests.Server;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.Browser;

/// <summary>What a tablet keeps for when there is no Wi-Fi: the pages of the round, and what waits to be sent.</summary>
internal static class TabletStore
{
    private static readonly TimeSpan Patience = TimeSpan.FromMilliseconds(Visit.PatienceMilliseconds);
    private static readonly TimeSpan Step = TimeSpan.FromMilliseconds(100);

    /// <summary>A tablet that has been online once: the worker keeps these pages and what they are made of.</summary>
    public static async Task<Visit> OpenAsync(Chromium chromium, SmallShop shop, params string[] pages)
    {
        var tablet = await Visit.OpenAsync(chromium, shop.Server.Address);
        await SignIn.AsAsync(tablet, "op", SmallShop.Password);
        await tablet.GoAsync("/round");
        await EventuallyAsync(() => tablet.Page.EvaluateAsync<bool>("""
            async pages => {
                const files = performance.getEntriesByType('resource').map(r => r.name).filter(name => /\/(css|js)\//.test(name));
                return (await Promise.all([...pages, ...files].map(f => caches.match(f)))).every(kept => kept);
            }
            """, pages));
        return tablet;
    }

    /// <summary>How many forms wait on the tablet, whether they will go by themselves or were refused.</summary>
    public static Task<int> WaitingAsync(Visit tablet) => tablet.Page.EvaluateAsync<int>("""
        () => new Promise(done => {
            const opening = indexedDB.open('shopfluids', 1);
            opening.onsuccess = () => { const count = opening.result.transaction('outbox').objectStore('outbox').count(); count.onsuccess = () => done(count.result); };
        })
        """);

    public static async Task EventuallyAsync(Func<Task<bool>> isSo)
    {
        var waited = Stopwatch.StartNew();
        while (!await isSo())
        {
            Assert.True(waited.Elapsed < Patience, "It did not come about in time.");
            await Task.Delay(Step);
        }
    }
}
