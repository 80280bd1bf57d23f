using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Readings;

/// <summary>Readings that arrive out of order, and fluid moved in between: what is the latest is decided for each parameter.</summary>
public sealed class LateReadingTests
{
    [Theory, EachDatabase]
    public async Task HandleAsync_LateReadingWithTheNewestPh_RaisesItsFlag(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: null, ph: null));
        var late = Some.Reading(brix: null, ph: 7.9m, levelMm: 100, takenAt: Some.Start.AddMinutes(-5));

        var preview = (await shop.Get<PreviewReadingQuery>().RunAsync(late, TestContext.Current.CancellationToken)).Done();
        var outcome = await shop.StoreAsync(late);

        Assert.Equal(ParameterCodes.Ph, Assert.Single(outcome.Raised).Parameter);
        Assert.Equal("limit:ph", Assert.Single(outcome.Made).Cause);
        Assert.Equal(Outcomes.ModuloIds(preview), Outcomes.ModuloIds(outcome));
        var standing = await shop.ReadAsync(db => db.Standings.SingleAsync());
        Assert.Equal((1, 300m), (standing.OpenFlagCount, standing.Facts?.Latest[ParameterCodes.Level].Value));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_LateReadingOfTheRestOfATest_CompletesIt(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test));
        await shop.StoreAsync(Some.Reading(ph: null));

        var late = await shop.StoreAsync(Some.Reading(brix: null, levelMm: null, takenAt: Some.Start.AddMinutes(-5)));

        Assert.Equal(TaskKind.Test, Assert.Single(late.Done).Kind);
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // 70 L are wanted; once they are in, a second look at one half of the pair must not ask for them again.
    [Theory, EachDatabase]
    public async Task HandleAsync_OneHalfMeasuredAfterTheRecipeWasPoured_HasNoRecipe(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        Assert.NotNull((await shop.StoreAsync(Some.Reading(brix: 6.0m, levelMm: 200))).Recipe);
        shop.Clock.Advance(TimeSpan.FromMinutes(20));
        (await shop.AddAsync(Some.Addition(shop.LotId, water: 60, concentrate: 8, at: shop.Now))).Done();
        shop.Clock.Advance(TimeSpan.FromMinutes(20));

        Assert.Null((await shop.StoreAsync(Some.Reading(ph: null, levelMm: null, takenAt: shop.Now))).Recipe);
        Assert.NotNull((await shop.StoreAsync(Some.Reading(ph: null, levelMm: 300, takenAt: shop.Now))).Recipe);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_LevelOnlyAfterTheRecipeWasPoured_HasNoRecipe(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 6.0m, levelMm: 200));
        shop.Clock.Advance(TimeSpan.FromMinutes(20));
        (await shop.AddAsync(Some.Addition(shop.LotId, water: 30, concentrate: 8, at: shop.Now))).Done();
        shop.Clock.Advance(TimeSpan.FromMinutes(20));

        Assert.Null((await shop.StoreAsync(Some.Reading(brix: null, ph: null, levelMm: 276, takenAt: shop.Now))).Recipe);
    }

    // The level of 10:05 knows nothing of what was poured in at 10:10.
    [Theory, EachDatabase]
    public async Task HandleAsync_LevelFromBeforeTheLastAddition_KeepsTheAdditionInTheVolume(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(levelMm: 200, takenAt: Some.Start.AddHours(-1)));
        (await shop.AddAsync(Some.Addition(shop.LotId, water: 20, concentrate: 2, at: Some.Start))).Done();

        var outcome = await shop.StoreAsync(Some.Reading(brix: null, ph: null, levelMm: 190, takenAt: Some.Start.AddMinutes(-5)));

        Assert.Null(outcome.Recipe);
        Assert.Equal(95 + 22, await shop.ReadAsync(db => db.Standings.Select(s => s.VolumeLitres).SingleAsync()));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Fact]
    public void StoredFacts_FromBeforeMovementsWereKept_AreRead()
    {
        const string Stored = """{"filledAt":"2026-03-02T07:00:00Z","firstFillPh":9.1,"latest":{},"openFlags":[],"openTasks":[]}""";

        var facts = JsonColumn.Read<StandingFacts>(Stored);

        Assert.Equal((9.1m, (DateTime?)null), (facts.FirstFillPh, facts.LastMovedAt));
    }
}
