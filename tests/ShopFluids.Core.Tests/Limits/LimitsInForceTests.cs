using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Limits;
using ShopFluids.Core.Setup;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Limits;

/// <summary>Invariant 5: judged by the limits in force at its time; a new version judges nothing again.</summary>
public sealed class LimitsInForceTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task Record_AroundANewVersion_IsJudgedByWhatAppliedThen(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var before = await shop.StoreAsync(Some.Reading(brix: 7.5m, takenAt: Some.Start.AddHours(-2)));
        (await SetAsync(shop, Band(8, 10), Some.Start)).Done();

        var late = await shop.StoreAsync(Some.Reading(brix: 7.5m, takenAt: Some.Start.AddMilliseconds(-1)));
        var after = await shop.StoreAsync(Some.Reading(brix: 7.5m, takenAt: Some.Start));

        Assert.Equal((Verdict.InRange, Verdict.InRange, Verdict.Warning), (before.Verdict, late.Verdict, after.Verdict));
        Assert.Equal(Verdict.InRange, await shop.ReadAsync(db => db.Readings.Where(r => r.Id == before.ReadingId).Select(r => r.Verdict).SingleAsync()));
        var used = await shop.ReadAsync(db => db.Measurements.Where(m => m.Parameter == ParameterCodes.Concentration)
            .Join(db.LimitSets, m => m.LimitSetId, l => l.Id, (m, l) => new { m.ReadingId, l.Number }).ToDictionaryAsync(x => x.ReadingId, x => x.Number));
        Assert.Equal((1, 1, 2), (used[before.ReadingId], used[late.ReadingId], used[after.ReadingId]));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task SetLimits_OfTheSump_SpeakOnlyForWhatTheyName(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        (await shop.Get<SetLimitsHandler>().HandleAsync(new SetLimits(Some.Id(), null, shop.SumpId, Some.Start, [Band(4, 6)]), Some.Supervisor, Stop)).Done();

        var outcome = await shop.StoreAsync(Some.Reading(brix: 5.0m, ph: 8.1m));

        Assert.Equal([Verdict.InRange, Verdict.Action, Verdict.NotMeasured], outcome.Measurements.Select(m => m.Verdict));
    }

    [Theory, EachDatabase]
    public async Task SetLimits_BadInput_NamesTheFieldAndStoresNothing(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        (await SetAsync(shop, Band(8, 10), Some.Start)).Done();
        var before = await shop.FootprintAsync();

        Assert.Equal("limits.concentration", (await SetAsync(shop, Band(10, 8), Some.Start)).Field().Field);
        Assert.Equal(FieldProblem.OutOfRange, (await SetAsync(shop, Band(8, 101), Some.Start)).Fields()[0].Problem);
        Assert.Equal("limits.concentration.clearMargin", (await SetAsync(shop, Band(8, 10) with { ClearMargin = 1.1m }, Some.Start)).Field().Field);
        Assert.Equal(FieldProblem.UnknownParameter, (await SetAsync(shop, Band(8, 10) with { Parameter = "luck" }, Some.Start)).Field().Problem);
        Assert.Equal(new FieldError("validFrom", FieldProblem.NotAscending), (await SetAsync(shop, Band(7, 9), Some.Start.AddMilliseconds(-1))).Field());
        Assert.Equal(new FieldError("validFrom", FieldProblem.InTheFuture), (await SetAsync(shop, Band(7, 9), Some.Start.AddYears(2))).Field());
        Assert.Equal("owner", (await shop.Get<SetLimitsHandler>().HandleAsync(new SetLimits(Some.Id(), null, null, Some.Start, []), Some.Supervisor, Stop)).Field().Field);
        Assert.Equal("owner", (await shop.Get<SetLimitsHandler>().HandleAsync(new SetLimits(Some.Id(), Some.Id(), null, Some.Start, []), Some.Supervisor, Stop)).Field().Field);
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory, EachDatabase]
    public async Task SetLimits_SameIdTwice_MakesOneVersion(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var command = new SetLimits(Some.Id(), shop.FluidId, null, Some.Start, [Band(8, 10)]);
        (await shop.Get<SetLimitsHandler>().HandleAsync(command, Some.Supervisor, Stop)).Done();
        var before = await shop.FootprintAsync();

        (await shop.Get<SetLimitsHandler>().HandleAsync(command, Some.Supervisor, Stop)).Done();

        Assert.Equal(before, await shop.FootprintAsync());
        Assert.Equal(3, await shop.CountAsync<LimitSet>());
    }

    private static ParameterLimits Band(decimal low, decimal high) =>
        new(ParameterCodes.Concentration, LimitBasis.Value, null, low, null, null, high, null, EdgeIsBeyond: false, 0.2m);

    private static Task<Result<Saved>> SetAsync(ShopFixture shop, ParameterLimits limits, DateTime from) =>
        shop.Get<SetLimitsHandler>().HandleAsync(new SetLimits(Some.Id(), shop.FluidId, null, from, [limits]), Some.Supervisor, Stop);
}
