using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care.Shutdowns;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Instruments;
using ShopFluids.Core.Record.Replay;
using ShopFluids.Core.Setup;
using ShopFluids.Core.ShopFlags;
using ShopFluids.Core.Tests.Sumps;
using ShopFluids.Core.Tuning;
using ShopFluids.Rules.Escalation;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Record.Replay;

/// <summary>Flags of lots, stocks and instruments, and what went to the supervisor, are found again from the record; what is not is named.</summary>
public sealed class ShopReplayTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    // Expiry, quarantine and back, a stock that runs low and is enough again, an instrument that lapses and is checked, an opened lot, answers:
    // each raised, gone or marked at its own moment, with a clock that steps back in between.
    [Theory, EachDatabase]
    public async Task RunAsync_AllThatHappensInTheStores_IsFoundAgain(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var keeps = Some.Fluid(Some.Id(), "Emulsion B");
        (await shop.Get<AddFluidHandler>().HandleAsync(keeps with { Data = keeps.Data with { OpenedLifeDays = 5 } }, Some.Supervisor, Stop)).Done();
        var opened = await LotAsync(shop, "L-2", keeps.Id);
        await shop.SumpAsync(Some.Sump(Some.Id(), shop.AreaId, "S-08", "M-08"));
        (await shop.FillAsync(Some.Fill(Some.Id(), keeps.Id, opened, "S-08", shop.Now))).Done();
        await LotAsync(shop, "L-3", expires: new DateOnly(2026, 3, 3), litres: 5);
        var instrument = Some.Refractometer();
        await shop.InstrumentAsync(instrument);
        await NoticeAsync(shop);
        (await shop.Get<NoteInstrumentCheckHandler>().HandleAsync(new NoteInstrumentCheck(Some.Id(), instrument.Id, new DateOnly(2026, 3, 2)) { Note = "Set right" }, Some.Supervisor, Stop)).Done();
        (await shop.Get<QuarantineLotHandler>().HandleAsync(new QuarantineLot(shop.LotId, "Skin on top"), Some.Supervisor, Stop)).Done();
        (await shop.Get<QuarantineLotHandler>().HandleAsync(new QuarantineLot(shop.LotId, null), Some.Supervisor, Stop)).Done();
        for (var day = 0; day < 14; day++)
        {
            shop.Clock.Advance(TimeSpan.FromDays(1));
            (await shop.AddAsync(Some.Addition(shop.LotId, water: 0, concentrate: 10, removed: 10, at: shop.Now))).Done();
            await NoticeAsync(shop);
            await shop.Get<EscalateFlagsHandler>().HandleAsync(Stop);
        }

        var flag = await shop.ReadAsync(db => db.ShopFlags.FirstAsync(f => f.GoneAtUtc == null && f.AnsweredAtUtc == null, Stop));
        (await shop.Get<AnswerShopFlagHandler>().HandleAsync(new AnswerShopFlag(flag.Id, "Ordered"), Some.Supervisor, Stop)).Done();
        await using var other = shop.Another();
        other.Clock.AdjustTime(shop.Clock.GetUtcNow().AddDays(-2));
        await LotAsync(other, "L-4", shop.FluidId, litres: 300);
        await NoticeAsync(other);

        var report = await RunAsync(shop);

        Assert.Empty(report.Differences.Select(d => (d.Subject, d.Aspect, d.Stored, d.Replayed)));
        Assert.Equal((await shop.CountAsync<ShopFlag>(), await shop.ReadAsync(db => db.ShopFlags.CountAsync(f => f.EscalatedAtUtc != null, Stop))), (report.OfTheShop, report.Escalated));
        Assert.True(report is { OfTheShop: >= 5, Escalated: >= 3 }, $"{report.OfTheShop} raised, {report.Escalated} marked");
        Assert.Contains(await shop.ReadAsync(db => db.ShopFlags.Select(f => f.Aspect).Distinct().ToListAsync(Stop)), a => a == "low-stock");
        Assert.Contains(await shop.ReadAsync(db => db.ShopFlags.Select(f => f.Aspect).Distinct().ToListAsync(Stop)), a => a == "opened-too-long");
    }

    // Two sumps: of one the flag is answered by a reading, a movement or work, of the other by nobody; hours set on the way, a shutdown in between.
    [Theory, EachDatabase]
    public async Task RunAsync_FlagsOfSumpsThatNobodyAnswered_AreMarkedAgain(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.SumpAsync(Some.Sump(Some.Id(), shop.AreaId, "S-08", "M-08"));
        (await shop.FillAsync(Some.Fill(Some.Id(), shop.FluidId, shop.LotId, "S-08"))).Done();
        await shop.StoreAsync(Some.Reading(brix: 4.0m));
        await shop.StoreAsync(Some.Reading(brix: 4.0m, sump: "S-08"));
        await SetHoursAsync(shop, 3, seen: 0);
        shop.Clock.Advance(TimeSpan.FromHours(2));
        (await shop.AddAsync(Some.Addition(shop.LotId, at: shop.Now))).Done();
        shop.Clock.Advance(TimeSpan.FromHours(1));
        Assert.Equal(1, await EscalateAsync(shop));
        await shop.StoreAsync(Some.Reading(brix: 3.0m, ph: 8.0m, takenAt: shop.Now));
        (await shop.Get<PlanShutdownHandler>().HandleAsync(new PlanShutdown(Some.Id(), Some.SumpTag, new DateOnly(2026, 3, 3), new DateOnly(2026, 3, 9), "Spindle repair"), Some.Supervisor, Stop)).Done();
        await SetHoursAsync(shop, 2, seen: 1);
        for (var day = 0; day < 12; day++)
        {
            shop.Clock.Advance(TimeSpan.FromDays(1));
            await EscalateAsync(shop);
        }

        var report = await RunAsync(shop);

        Assert.Empty(report.Differences.Select(d => (d.Subject, d.Aspect, d.Stored, d.Replayed)));
        Assert.Equal(await shop.ReadAsync(db => db.Flags.CountAsync(f => f.EscalatedAtUtc != null, Stop)), report.Escalated);
        Assert.True(report.Escalated >= 2, $"{report.Escalated} marked");
    }

    // Readings on time, late and corrected, work, closed flags, drains and fills, in an order that the seed decides, with the timers after each.
    [Theory]
    [EachDatabase(1)]
    [EachDatabase(2)]
    [EachDatabase(3)]
    public async Task RunAsync_RandomHistory_GivesTheSameAnswers(TestDatabase database, int seed)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.InstrumentAsync(Some.Refractometer());
        var random = new RandomShop(shop, seed);
        for (var step = 0; step < 60; step++)
        {
            await random.StepAsync();
            await NoticeAsync(shop);
            await EscalateAsync(shop);
        }

        var report = await RunAsync(shop);

        Assert.Empty(report.Differences.Select(d => (d.Subject, d.AtUtc, d.Aspect, d.Stored, d.Replayed)));
        Assert.True(report is { Readings: > 0, Escalated: > 0, OfTheShop: > 0 }, $"{report.Readings} readings, {report.Escalated} marked, {report.OfTheShop} of the shop");
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // The record itself was rewritten: what it says now does not lead to what is stored.
    [Theory, EachDatabase]
    public async Task RunAsync_LotOfTheRecordRewritten_NamesTheFlagThatDiffers(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await LotAsync(shop, "L-2", expires: new DateOnly(2026, 3, 3));
        shop.Clock.Advance(TimeSpan.FromDays(3));
        Assert.Equal(1, await NoticeAsync(shop));
        await RawSql.ExecuteAsync(database, """UPDATE "RecordEntries" SET "Changes" = REPLACE("Changes", '"ExpiresOn":"2026-03-03"', '"ExpiresOn":"2026-03-30"') WHERE "Code" = 'lot.received'""");

        var difference = Assert.Single((await RunAsync(shop)).Differences);

        Assert.Equal(("L-2", shop.Now, null, ReplayAspect.ShopFlagRaised, "", false), (difference.Subject, difference.AtUtc, difference.ReadingId, difference.Aspect, difference.Replayed, difference.IsSetupChanged));
        Assert.StartsWith("lot:expired Warning", difference.Stored, StringComparison.Ordinal);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_FlagOfTheShopChangedByHand_NamesWhatWasRaisedAndWhatIsFound(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        (await shop.Get<QuarantineLotHandler>().HandleAsync(new QuarantineLot(shop.LotId, "Skin on top"), Some.Supervisor, Stop)).Done();
        await RawSql.ExecuteAsync(database, """UPDATE "ShopFlags" SET "Numbers" = '{"days":0,"remainingLitres":18}'""");

        var difference = Assert.Single((await RunAsync(shop)).Differences);

        Assert.Equal(("L-1", ReplayAspect.ShopFlagRaised), (difference.Subject, difference.Aspect));
        Assert.Contains("\"remainingLitres\":18", difference.Stored, StringComparison.Ordinal);
        Assert.Contains("\"remainingLitres\":188", difference.Replayed, StringComparison.Ordinal);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_FlagThatWentAwayOpenedByHand_SaysThatItWent(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        (await shop.Get<QuarantineLotHandler>().HandleAsync(new QuarantineLot(shop.LotId, "Skin on top"), Some.Supervisor, Stop)).Done();
        (await shop.Get<QuarantineLotHandler>().HandleAsync(new QuarantineLot(shop.LotId, null), Some.Supervisor, Stop)).Done();
        await RawSql.ExecuteAsync(database, """UPDATE "ShopFlags" SET "GoneAtUtc" = NULL""");

        var difference = Assert.Single((await RunAsync(shop)).Differences);

        Assert.Equal(("L-1", ReplayAspect.ShopFlagGone, "", "lot:quarantined"), (difference.Subject, difference.Aspect, difference.Stored, difference.Replayed));
    }

    [Theory]
    [EachDatabase("""UPDATE "RecordEntries" SET "Changes" = REPLACE("Changes", 'actionHours\":1', 'actionHours\":9') WHERE "Code" = 'rule.set'""", ReplayAspect.Escalation, "limit:concentration Action", "")]
    [EachDatabase("""UPDATE "Flags" SET "EscalatedAtUtc" = NULL""", ReplayAspect.Escalation, "", "limit:concentration Action")]
    [EachDatabase("""UPDATE "Flags" SET "Severity" = 2""", ReplayAspect.Escalation, "limit:concentration Warning", "limit:concentration Action")]
    [EachDatabase("""DELETE FROM "RecordEntries" WHERE "Code" = 'flag.escalated'""", ReplayAspect.NotInRecord, "", "")]
    public async Task RunAsync_MarkOfTheSupervisorTamperedWith_IsNamed(TestDatabase database, string statement, ReplayAspect aspect, string stored, string replayed)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 4.0m));
        await SetHoursAsync(shop, 1, seen: 0);
        shop.Clock.Advance(TimeSpan.FromHours(2));
        Assert.Equal(1, await EscalateAsync(shop));
        await RawSql.ExecuteAsync(database, statement);

        // Of a flag changed by hand the reading that raised it tells too.
        var difference = Assert.Single((await RunAsync(shop)).Differences, d => d.ReadingId is null);

        Assert.Equal((Some.SumpTag, aspect, stored, replayed), (difference.Subject, difference.Aspect, difference.Stored, difference.Replayed));
    }

    [Theory, EachDatabase]
    public async Task RunAsync_FlagOfTheShopUnknownToTheRecord_SaysSo(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        (await shop.Get<QuarantineLotHandler>().HandleAsync(new QuarantineLot(shop.LotId, "Skin on top"), Some.Supervisor, Stop)).Done();
        await RawSql.ExecuteAsync(database, """DELETE FROM "RecordEntries" WHERE "Code" = 'lot.quarantined'""");

        var difference = Assert.Single((await RunAsync(shop)).Differences);

        Assert.Equal(("L-1", ReplayAspect.NotInRecord), (difference.Subject, difference.Aspect));
    }

    private static Task<ReplayReport> RunAsync(ShopFixture shop) => shop.Get<ReplayQuery>().RunAsync(Stop);

    private static Task<int> NoticeAsync(ShopFixture shop) => shop.Get<NoticeShopFlagsHandler>().HandleAsync(Stop);

    private static Task<int> EscalateAsync(ShopFixture shop) => shop.Get<EscalateFlagsHandler>().HandleAsync(Stop);

    private static async Task<Guid> LotAsync(ShopFixture shop, string number, Guid? fluidId = null, DateOnly? expires = null, decimal litres = 200) =>
        (await shop.Get<ReceiveLotHandler>().HandleAsync(Some.Lot(Some.Id(), fluidId ?? shop.FluidId, number, litres, expires), Some.Supervisor, Stop)).Done().Id;

    private static async Task SetHoursAsync(ShopFixture shop, decimal hours, int seen)
    {
        var command = new SetRule(Some.Id(), EscalationRule.RuleCode, null, null, null, new Dictionary<string, decimal> { [EscalationRule.ActionHours] = hours }, "Small shop", seen);
        (await shop.Get<SetRuleHandler>().HandleAsync(command, Some.Supervisor, Stop)).Done();
    }
}
