using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Fluids;

/// <summary>Invariant 6: a lot never goes below zero and is not used after expiry or in quarantine without a recorded override.</summary>
public sealed class LotUseTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task Add_MoreThanTheLotHolds_IsRefusedWithWhatItHolds(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var small = await LotAsync(shop, Some.Lot(Some.Id(), shop.FluidId, "L-2", litres: 2));

        Assert.Equal(new FieldError("concentrateLitres", FieldProblem.LotTooSmall, 2.1m, 0, 2, "L", "L-2"), (await shop.AddAsync(Some.Addition(small, concentrate: 2.1m))).Field());
        (await shop.AddAsync(Some.Addition(small, concentrate: 2))).Done();
        Assert.Equal(FieldProblem.LotTooSmall, (await shop.AddAsync(Some.Addition(small, concentrate: 0.1m))).Field().Problem);
        Assert.Equal(0, await shop.ReadAsync(db => db.FluidLots.Where(l => l.Id == small).Select(l => l.RemainingLitres).SingleAsync()));
    }

    [Theory, EachDatabase]
    public async Task Database_LotBelowZero_IsRefusedByItsCheck(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var sql = await RawSql.OpenAsync(database);

        await Assert.ThrowsAnyAsync<System.Data.Common.DbException>(() => sql.ExecuteAsync("""UPDATE "FluidLots" SET "RemainingLitres" = -0.1"""));
    }

    [Theory, EachDatabase]
    public async Task Add_ManyAtOnce_NeverDrawMoreThanTheLotHolds(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var other = shop.Another();
        var small = await LotAsync(shop, Some.Lot(Some.Id(), shop.FluidId, "L-2", litres: 5));

        var answers = await Task.WhenAll(Enumerable.Range(0, 12).Select(n => Task.Run(() => (n % 2 == 0 ? shop : other).AddAsync(Some.Addition(small, water: 1, concentrate: 1)))));

        Assert.Equal(5, answers.Count(a => a.Value is not null));
        Assert.Equal(0, await shop.ReadAsync(db => db.FluidLots.Where(l => l.Id == small).Select(l => l.RemainingLitres).SingleAsync()));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // The shop day decides: at 05:59 in Berlin it is still the day before.
    [Theory]
    [EachDatabase("2026-03-03T04:59:59Z", true)]
    [EachDatabase("2026-03-03T05:00:00Z", false)]
    public async Task Add_LastDayOfTheLot_IsStillGood(TestDatabase database, string at, bool isGood)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var lot = await LotAsync(shop, Some.Lot(Some.Id(), shop.FluidId, "L-2", expires: new DateOnly(2026, 3, 2)));
        shop.Clock.SetUtcNow(DateTimeOffset.Parse(at, System.Globalization.CultureInfo.InvariantCulture));

        var answer = await shop.AddAsync(Some.Addition(lot, at: shop.Now));

        Assert.Equal(isGood ? null : FieldProblem.LotExpired, answer.Value is null ? answer.Field().Problem : (FieldProblem?)null);
    }

    [Theory]
    [EachDatabase(true)]
    [EachDatabase(false)]
    public async Task Add_BarredLot_NeedsASupervisorsReasonWhichIsKept(TestDatabase database, bool isExpired)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var lot = await LotAsync(shop, Some.Lot(Some.Id(), shop.FluidId, "L-2", expires: isExpired ? new DateOnly(2026, 2, 27) : null));
        if (!isExpired)
        {
            (await shop.Get<QuarantineLotHandler>().HandleAsync(new QuarantineLot(lot, "Split in the cold"), Some.Supervisor, Stop)).Done();
        }

        var problem = isExpired ? FieldProblem.LotExpired : FieldProblem.LotQuarantined;
        Assert.Equal(new FieldError("lot", problem, Detail: "L-2"), (await shop.AddAsync(Some.Addition(lot))).Field());
        Assert.Equal(problem, (await shop.AddAsync(Some.Addition(lot, overrideReason: "I may not"))).Field().Problem);
        Assert.Equal(problem, (await shop.AddAsync(Some.Addition(lot, overrideReason: " "), isSupervisor: true)).Field().Problem);
        (await shop.AddAsync(Some.Addition(lot, overrideReason: "Tested, good"), isSupervisor: true)).Done();

        Assert.Equal("Tested, good", await shop.ReadAsync(db => db.Additions.Where(a => a.LotId == lot).Select(a => a.OverrideReason).SingleAsync()));
        Assert.Contains("Tested, good", await shop.ReadAsync(db => db.RecordEntries.OrderByDescending(e => e.Sequence).Select(e => e.Changes).FirstAsync()), StringComparison.Ordinal);
    }

    // What was typed in case it were needed is no override of a lot that was fine.
    [Theory, EachDatabase]
    public async Task Add_GoodLotWithAReason_StoresNoOverride(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database, isFilled: false);

        (await shop.FillAsync(Some.Fill(shop.ChargeId, shop.FluidId, shop.LotId) with { OverrideReason = "Just in case" }, isSupervisor: true)).Done();
        (await shop.AddAsync(Some.Addition(shop.LotId, overrideReason: "Just in case"), isSupervisor: true)).Done();

        Assert.Equal([null, null], await shop.ReadAsync(db => db.Additions.Select(a => a.OverrideReason).ToListAsync()));
    }

    [Theory, EachDatabase]
    public async Task Add_BeforeTheLotWasReceived_IsRefusedWithTheDay(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var lot = await LotAsync(shop, Some.Lot(Some.Id(), shop.FluidId, "L-2") with { ReceivedOn = new DateOnly(2026, 3, 2) });
        var tooEarly = new FieldError("lot", FieldProblem.LotNotReceived, Detail: "L-2", FirstDay: new DateOnly(2026, 3, 2));

        Assert.Equal(tooEarly, (await shop.AddAsync(Some.Addition(lot, at: Some.Start.AddDays(-9)))).Field());
        Assert.Equal(tooEarly, (await shop.AddAsync(Some.Addition(lot, at: Some.Start.AddDays(-2), overrideReason: "It was"), isSupervisor: true)).Field());
        (await shop.AddAsync(Some.Addition(lot))).Done();
    }

    [Theory, EachDatabase]
    public async Task Add_NoLotUnknownLotOrAnotherFluid_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var fluid = Some.Id();
        (await shop.Get<AddFluidHandler>().HandleAsync(Some.Fluid(fluid, "Emulsion B"), Some.Supervisor, Stop)).Done();
        var lot = await LotAsync(shop, Some.Lot(Some.Id(), fluid, "B-1"));

        Assert.Equal(new FieldError("lot", FieldProblem.Missing), (await shop.AddAsync(Some.Addition(null))).Field());
        Assert.Equal(new FieldError("lot", FieldProblem.UnknownChoice), (await shop.AddAsync(Some.Addition(Some.Id()))).Field());
        Assert.Equal(new FieldError("lot", FieldProblem.LotOfAnotherFluid, Detail: "B-1"), (await shop.AddAsync(Some.Addition(lot))).Field());
        (await shop.AddAsync(Some.Addition(null, water: 5, concentrate: 0))).Done();
    }

    // Every litre: lot to charges to sumps, and back.
    [Theory, EachDatabase]
    public async Task Add_FromALot_IsTracedToChargeAndSump(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        (await shop.AddAsync(Some.Addition(shop.LotId, concentrate: 3))).Done();

        var drawn = await shop.ReadAsync(db => (from a in db.Additions
                                                join c in db.Charges on a.ChargeId equals c.Id
                                                where a.LotId == shop.LotId
                                                select new { c.SumpId, a.ConcentrateLitres }).ToListAsync());
        var lot = await shop.ReadAsync(db => db.FluidLots.SingleAsync());
        Assert.All(drawn, d => Assert.Equal(shop.SumpId, d.SumpId));
        Assert.Equal(lot.ReceivedLitres - lot.RemainingLitres, drawn.Sum(d => d.ConcentrateLitres));
    }

    [Theory, EachDatabase]
    public async Task Quarantine_AndRelease_AreRecorded(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var handler = shop.Get<QuarantineLotHandler>();

        Assert.Equal("reason", (await handler.HandleAsync(new QuarantineLot(shop.LotId, " "), Some.Supervisor, Stop)).Field().Field);
        Assert.IsType<LotNotFound>((await handler.HandleAsync(new QuarantineLot(Some.Id(), "Odd"), Some.Supervisor, Stop)).Refused());
        (await handler.HandleAsync(new QuarantineLot(shop.LotId, "Odd"), Some.Supervisor, Stop)).Done();
        (await handler.HandleAsync(new QuarantineLot(shop.LotId, null), Some.Supervisor, Stop)).Done();

        Assert.Equal([ActCodes.LotReleased, ActCodes.LotQuarantined], await shop.ReadAsync(db => db.RecordEntries.OrderByDescending(e => e.Sequence).Take(2).Select(e => e.Code).ToListAsync()));
        (await shop.AddAsync(Some.Addition(shop.LotId))).Done();
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    private static async Task<Guid> LotAsync(ShopFixture shop, ReceiveLot lot)
    {
        (await shop.Get<ReceiveLotHandler>().HandleAsync(lot, Some.Supervisor, Stop)).Done();
        return lot.Id;
    }
}
