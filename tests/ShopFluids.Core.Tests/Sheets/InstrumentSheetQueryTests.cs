using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Instruments;
using ShopFluids.Core.People;
using ShopFluids.Core.Sheets.InstrumentChecks;
using ShopFluids.Core.ShopFlags;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Sheets;

public sealed class InstrumentSheetQueryTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    // Checked on 20 February and good for a week; it is 2 March.
    [Theory, EachDatabase]
    public async Task RunAsync_CheckTooOld_IsMarkedLapsed(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);

        var sheet = await RunAsync(shop);

        Assert.Equal(("1", "1", "1 Jan to 2 Mar 2026"), (sheet.Count, sheet.Lapsed, sheet.Frame.Period));
        var row = Assert.Single(sheet.Instruments);
        Assert.Equal(("R-1", Texts.Setup_KindRefractometer, "0.1 Brix", "0.2 Brix", "7 days", "20 Feb 2026", "27 Feb 2026"), (row.Tag, row.Kind, row.Resolution, row.Accuracy, row.Every, row.CheckedOn, row.HoldsUntil));
        Assert.Equal((true, "2 days late"), (row.Standing.IsLate, row.Standing.Word));
        Assert.Empty(sheet.Checks);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_PassedThenFailed_BothChecksAreListedWithWhatWasRead(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        var person = Some.Supervisor.PersonId ?? throw new InvalidOperationException("A supervisor is a person.");
        (await shop.Get<MakeAccountHandler>().HandleAsync(new MakeAccount(person, "sup", "Sup", "ten signs and more", [Roles.Supervisor], "light"), Some.Supervisor, Token)).Done();
        await CheckAsync(shop, new(2026, 3, 2));
        shop.Clock.Advance(TimeSpan.FromDays(3));
        await CheckAsync(shop, new(2026, 3, 5), shown: 0.4m);

        var sheet = await RunAsync(shop);

        Assert.Equal(
            [("5 Mar 2026", Texts.Instrument_Fail, "0: shown 0.4 Brix", "0.4 Brix", "Sup"), ("2 Mar 2026", Texts.Instrument_Pass, "0: shown 0.1 Brix", "0.1 Brix", "Sup")],
            sheet.Checks.Select(c => (c.CheckedOn, c.Result.Word, c.Standards, c.Offset, c.By)));
        Assert.Equal(Texts.InstrumentSheet_Never, sheet.Instruments[0].Standing.Word);
        Assert.Equal("1", sheet.Lapsed);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_ReadWhileLapsed_SaysHowManyValuesAndWhenItEnded(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await shop.Get<NoticeShopFlagsHandler>().HandleAsync(Token);
        shop.Clock.Advance(TimeSpan.FromHours(1));
        await shop.StoreAsync(Some.ReadingOf(Some.Typed(ParameterCodes.Concentration, 8.0m, instrument: "R-1"), Some.Typed(ParameterCodes.Ph, 9.0m)) with { TakenAtUtc = shop.Now });
        var open = Assert.Single((await RunAsync(shop)).Lapses);
        shop.Clock.Advance(TimeSpan.FromHours(1));
        await CheckAsync(shop, new(2026, 3, 2));
        var ended = Assert.Single((await RunAsync(shop)).Lapses);

        Assert.Equal(new InstrumentSheetLapse("R-1", "2 Mar 08:00", Texts.InstrumentSheet_StillLapsed, "1", ""), open);
        Assert.Equal(("2 Mar 10:00", "1"), (ended.Until, ended.Readings));
    }

    private static async Task<ShopFixture> OpenAsync(TestDatabase database)
    {
        var shop = await ShopFixture.OpenAsync(database, also: s => s.AddSingleton<InstrumentSheetQuery>());
        await shop.InstrumentAsync(Some.Refractometer());
        return shop;
    }

    private static async Task CheckAsync(ShopFixture shop, DateOnly day, decimal shown = 0.1m)
    {
        var id = (await shop.SetupAsync()).Instruments[0].Id;
        (await shop.Get<NoteInstrumentCheckHandler>().HandleAsync(new NoteInstrumentCheck(Some.Id(), id, day) { First = new(0, shown) }, Some.Supervisor, Token)).Done();
    }

    private static async Task<InstrumentSheet> RunAsync(ShopFixture shop) => (await shop.Get<InstrumentSheetQuery>().RunAsync(null, null, "Sup", Token)).Done();
}
