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

    // Invariant 5: a reading stays judged by what was in force at its time, so nothing may come into force before it.
    [Theory]
    [EachDatabase(true)]
    [EachDatabase(false)]
    public async Task SetLimits_BackDatedOverAReading_IsRefused(TestDatabase database, bool isOfSump)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(takenAt: Some.Start.AddHours(-2)));
        var command = new SetLimits(Some.Id(), isOfSump ? null : shop.FluidId, isOfSump ? shop.SumpId : null, Some.Start.AddHours(-2), [Band(8, 10)]);
        var handler = shop.Get<SetLimitsHandler>();

        Assert.Equal(new FieldError("validFrom", FieldProblem.BeforeTheLastReading, EarliestUtc: Some.Start.AddHours(-2).AddMilliseconds(1)), (await handler.HandleAsync(command, Some.Supervisor, Stop)).Field());
        (await handler.HandleAsync(command with { ValidFromUtc = Some.Start.AddHours(-2).AddMilliseconds(1) }, Some.Supervisor, Stop)).Done();
    }

    // Readings under another fluid or of another sump stand in nobody's way.
    [Theory, EachDatabase]
    public async Task SetLimits_BeforeReadingsOfOthers_IsAccepted(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading());
        var fluid = Some.Id();
        var sump = await shop.SumpAsync(Some.Sump(Some.Id(), shop.AreaId, "S-08", "M-08"));
        (await shop.Get<AddFluidHandler>().HandleAsync(Some.Fluid(fluid, "Emulsion B"), Some.Supervisor, Stop)).Done();

        (await shop.Get<SetLimitsHandler>().HandleAsync(new SetLimits(Some.Id(), fluid, null, Some.Start.AddDays(-1), [Band(8, 10)]), Some.Supervisor, Stop)).Done();
        (await shop.Get<SetLimitsHandler>().HandleAsync(new SetLimits(Some.Id(), null, sump, Some.Start.AddDays(-1), [Band(8, 10)]), Some.Supervisor, Stop)).Done();
    }

    [Theory, EachDatabase]
    public async Task SetLimits_RowsThatCannotJudge_AreRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var fall = new ParameterLimits(ParameterCodes.Ph, LimitBasis.DropFromFirstFill, null, null, null, null, 0.5m, 1, EdgeIsBeyond: false, 0.1m);
        var action = new ParameterLimits(ParameterCodes.Ph, LimitBasis.Value, 8, null, null, null, null, 9, EdgeIsBeyond: false, 0.1m);
        var before = await shop.FootprintAsync();

        Assert.Equal(
            new FieldError("limits.concentration", FieldProblem.NotUnique, Detail: "concentration"),
            (await shop.Get<SetLimitsHandler>().HandleAsync(new SetLimits(Some.Id(), shop.FluidId, null, Some.Start, [Band(8, 10), Band(7, 9)]), Some.Supervisor, Stop)).Field());
        Assert.Equal(new FieldError("limits.ph", FieldProblem.OutOfRange, -0.5m, 0, 14, ""), (await SetAsync(shop, fall with { WarningHigh = -0.5m }, Some.Start)).Field());
        Assert.Equal(new FieldError("limits.ph.clearMargin", FieldProblem.OutOfRange, 0.6m, 0, 0.5m, ""), (await SetAsync(shop, fall with { ClearMargin = 0.6m }, Some.Start)).Field());
        Assert.Equal(new FieldError("limits.ph.clearMargin", FieldProblem.OutOfRange, 0.6m, 0, 0.5m, ""), (await SetAsync(shop, action with { ClearMargin = 0.6m }, Some.Start)).Field());
        Assert.Equal(new FieldError("limits.ph.clearMargin", FieldProblem.OutOfRange, 6.1m, 0, 6, ""), (await SetAsync(shop, action with { ActionHigh = null, ClearMargin = 6.1m }, Some.Start)).Field());
        Assert.Equal(new FieldError("limits.ph", FieldProblem.UnknownChoice), (await SetAsync(shop, action with { Basis = (LimitBasis)7 }, Some.Start)).Field());
        Assert.Equal(before, await shop.FootprintAsync());
        (await shop.Get<SetLimitsHandler>().HandleAsync(new SetLimits(Some.Id(), shop.FluidId, null, Some.Start, [action, fall]), Some.Supervisor, Stop)).Done();
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
