using System.Text.Json;
using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Tests.Walks;
using ShopFluids.Rules;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Rounds;

/// <summary>What is kept of an entry page may be shown again for as long as its stamp is the same and its time has not come.</summary>
public sealed class EntryPageStampTests
{
    private const int Steps = 250;

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Theory]
    [EachDatabase(1)]
    [EachDatabase(2)]
    [EachDatabase(3)]
    public async Task StampAsync_IsStillTheSameAfterAnyActAndAnyTime_SoIsThePage(TestDatabase database, int seed)
    {
        await using var shop = await OpenAsync(database);
        var walk = await ShopWalk.OpenAsync(shop, seed);
        var kept = new Dictionary<string, EntryPage>(StringComparer.Ordinal);
        var (held, pages) = (0, new HashSet<string>(StringComparer.Ordinal));
        for (var step = 0; step < Steps; step++)
        {
            var act = await walk.ActAsync();
            foreach (var tag in new[] { Some.SumpTag, ShopWalk.OtherTag })
            {
                var page = (await shop.Get<EntryPageQuery>().RunAsync(tag, Token)).Value;
                if (kept.GetValueOrDefault(tag) is { } before && shop.Now < before.HoldsUntilUtc && await shop.Get<EntryPageQuery>().StampAsync(before.Place.SumpId, Token) == before.Stamp)
                {
                    Assert.True(Told(before) == Told(page), $"{step}: {act} at {shop.Now:u}: kept {Told(before)} now {Told(page)}");
                    held++;
                }
                else if (page is not null)
                {
                    kept[tag] = page;
                    pages.Add(Told(page with { Stamp = new(0, null), HoldsUntilUtc = default }));
                }
            }
        }

        // A walk on which nothing holds, or everything, would show nothing.
        Assert.True(held > Steps / 4, $"held {held} times");
        Assert.True(pages.Count > Steps / 10, $"only {pages.Count} pages");
    }

    [Theory, EachDatabase]
    public async Task StampAsync_DoseIsGivenAndStruck_IsAnotherEachTime(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        var before = await PageAsync(shop);

        var dose = Some.Dose() with { GivenAtUtc = shop.Now };
        (await shop.Get<NoteDoseHandler>().HandleAsync(dose, Some.Supervisor, isSupervisor: true, Token)).Done();

        var given = await PageAsync(shop);
        Assert.NotEqual(before.Stamp, given.Stamp);
        Assert.Equal((shop.Now.AddHours(4), shop.Now.AddHours(4)), (given.KeepAway?.UntilUtc, given.HoldsUntilUtc));
        (await shop.Get<StrikeDoseHandler>().HandleAsync(new StrikeDose(Some.Id(), dose.Id, "Wrong sump"), Some.Supervisor, Token)).Done();
        var struck = await PageAsync(shop);
        Assert.NotEqual(given.Stamp, struck.Stamp);
        Assert.Null(struck.KeepAway);
    }

    // What the sump was last read with stands ready; nothing else of the sump is changed by it.
    [Theory, EachDatabase]
    public async Task StampAsync_ReadingIsCorrectedInItsInstrumentOnly_IsAnother(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await shop.InstrumentAsync(Some.Refractometer("R-1"));
        await shop.InstrumentAsync(Some.Refractometer("R-2"));
        var wrong = await shop.StoreAsync(By("R-1", null));
        var before = await PageAsync(shop);

        (await shop.RecordAsync(By("R-2", wrong.ReadingId), Some.Supervisor)).Done();

        var page = await PageAsync(shop);
        Assert.NotEqual(before.Stamp, page.Stamp);
        Assert.Equal(["R-2"], page.Instruments.Where(i => i.IsInUse).Select(i => i.Tag));

        static RecordReading By(string instrument, Guid? supersedes) =>
            Some.Reading(supersedes: supersedes, reason: supersedes is null ? null : "Other refractometer") with { Measurements = [Some.Typed(ParameterCodes.Concentration, 8, instrument: instrument)] };
    }

    // What is drawn ahead is compared with these, what is asked for with the others.
    [Theory, EachDatabase]
    public async Task StampsAsync_SumpsWithAndWithoutFluid_AreThoseThatCanBeRead(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await shop.StoreAsync(Some.Reading());
        var query = shop.Get<EntryPageQuery>();

        Assert.Equal([(Some.SumpTag, (await PageAsync(shop)).Stamp)], await query.StampsAsync(Token));

        (await shop.DrainAsync(shop.Now)).Done();
        Assert.Empty(await query.StampsAsync(Token));
    }

    private static Task<ShopFixture> OpenAsync(TestDatabase database) => ShopFixture.OpenAsync(database, also: s => s.AddSingleton<EntryPageQuery>());

    private static async Task<EntryPage> PageAsync(ShopFixture shop) => (await shop.Get<EntryPageQuery>().RunAsync(Some.SumpTag, Token)).Done();

    private static string Told(EntryPage? page) => page is null ? "none" : JsonSerializer.Serialize(page with { NowUtc = default });
}
