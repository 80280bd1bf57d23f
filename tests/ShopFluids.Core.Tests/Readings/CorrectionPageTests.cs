using ShopFluids.Core.Readings;
using ShopFluids.Core.Readings.Corrections;
using ShopFluids.Rules;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Readings;

public sealed class CorrectionPageTests
{
    [Theory, EachDatabase]
    public async Task RunAsync_StoredReading_AnswersEveryValueAsItWasTypedWithItsRange(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.InstrumentAsync(Some.Refractometer(compensates: false));
        var typed = Some.ReadingOf(
            Some.Typed(ParameterCodes.Concentration, 4.0m, temperature: 24, instrument: "R-1"),
            Some.Typed(ParameterCodes.Level, 10m, unit: "in"),
            Some.Typed(ParameterCodes.Concentration, 9.0m, method: MeasuringMethod.Titration));
        var reading = typed with { Note = "Foamy" };
        await shop.StoreAsync(reading);

        var page = (await RunAsync(shop, reading.Id)).Done();

        Assert.Equal((reading.Id, reading.TakenAtUtc, "Foamy", Verdict.Action), (page.ReadingId, page.TakenAtUtc, page.Note, page.Verdict));
        Assert.Equal(
            [("concentration", "refractometer", 4.0m, "Brix", (decimal?)24m, "R-1"), ("concentration", "titration", 9.0m, "mL", null, null), ("level", "", 10m, "in", null, null)],
            page.Values.Select(v => (v.Parameter, v.Method, v.RawValue, v.RawUnit, v.TemperatureCelsius, v.Instrument)));
        Assert.Equal(["concentration", "concentration-titration", "level"], page.Values.Select(v => page.FieldOf(v).Key));
        Assert.Equal((0m, 400m), page.FieldOf(page.Values[2]).Ways.Where(w => w.Unit == "mm").Select(w => (w.Low ?? -1, w.High ?? -1)).Single());
        Assert.Equal(["R-1"], page.Instruments["concentration"]);
        Assert.Empty(page.Instruments["concentration-titration"]);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_CorrectedBefore_NamesThat(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var wrong = Some.Reading(brix: 4.0m);
        await shop.StoreAsync(wrong);
        var right = Some.Reading(brix: 8.0m, supersedes: wrong.Id, reason: "Slip");
        await shop.StoreAsync(right);

        Assert.Equal(new AlreadySuperseded(wrong.Id), (await RunAsync(shop, wrong.Id)).Refused());
        Assert.Equal(right.Id, (await RunAsync(shop, right.Id)).Done().ReadingId);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_ReadingOfADrainedCharge_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var reading = Some.Reading();
        await shop.StoreAsync(reading);
        (await shop.DrainAsync(Some.Start.AddMinutes(1))).Done();
        shop.Clock.Advance(TimeSpan.FromHours(1));

        Assert.Equal(new NoOpenCharge(Some.SumpTag), (await RunAsync(shop, reading.Id)).Refused());
        (await shop.FillAsync(Some.Fill(Some.Id(), shop.FluidId, shop.LotId, at: Some.Start.AddMinutes(30)))).Done();
        Assert.Equal(new ReadingNotFound(reading.Id), (await RunAsync(shop, reading.Id)).Refused());
    }

    [Theory, EachDatabase]
    public async Task RunAsync_UnknownSumpOrReading_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var id = Some.Id();

        Assert.Equal(new ReadingNotFound(id), (await RunAsync(shop, id)).Refused());
        Assert.Equal(new SumpNotFound("S-99"), (await shop.Get<CorrectionPageQuery>().RunAsync("S-99", id, TestContext.Current.CancellationToken)).Refused());
    }

    [Theory, EachDatabase]
    public async Task SavedPage_OfACorrectedReading_NamesTheOneThatCounts(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var wrong = Some.Reading(brix: 4.0m);
        await shop.StoreAsync(wrong);
        var right = Some.Reading(brix: 8.0m, supersedes: wrong.Id, reason: "Slip");
        await shop.StoreAsync(right);

        var query = new SavedPageQuery(shop.Get<Core.Database.ShopDatabase>(), shop.Get<Core.Setup.SetupCache>(), shop.Get<Core.Time.ShopClock>());
        var old = (await query.RunAsync(Some.SumpTag, wrong.Id, TestContext.Current.CancellationToken)).Done();
        var now = (await query.RunAsync(Some.SumpTag, right.Id, TestContext.Current.CancellationToken)).Done();

        Assert.Equal((right.Id, "Slip"), (old.SupersededBy?.ReadingId, old.SupersededBy?.Reason));
        Assert.Null(now.SupersededBy);
    }

    private static Task<Core.Database.Result<CorrectionPage>> RunAsync(ShopFixture shop, Guid id) =>
        shop.Get<CorrectionPageQuery>().RunAsync(Some.SumpTag, id, TestContext.Current.CancellationToken);
}
