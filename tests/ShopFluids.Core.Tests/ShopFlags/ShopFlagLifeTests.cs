using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Instruments;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Setup;
using ShopFluids.Core.ShopFlags;
using ShopFluids.Rules;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Lot;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.ShopFlags;

/// <summary>A shop flag is raised once, open until answered or gone, and raised anew only after it was gone.</summary>
public sealed class ShopFlagLifeTests
{
    private static NoteInstrumentCheck LookedOver(Guid instrumentId, DateOnly day) => new(Some.Id(), instrumentId, day) { Note = "Set right" };

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    // The lot's last day is Tuesday, so it is expired from Wednesday 06:00 in Berlin on.
    [Theory]
    [EachDatabase("2026-03-04T04:59:59Z", 0)]
    [EachDatabase("2026-03-04T05:00:00Z", 1)]
    [EachDatabase("2026-09-04T05:00:00Z", 1)]
    public async Task Notice_LotExpires_ManyInstancesRaiseOne(TestDatabase database, string now, int expected)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var other = shop.Another();
        await LotAsync(shop, expires: new DateOnly(2026, 3, 3));
        foreach (var instance in new[] { shop, other })
        {
            instance.Clock.SetUtcNow(DateTimeOffset.Parse(now, System.Globalization.CultureInfo.InvariantCulture));
        }

        var raised = await Task.WhenAll(Enumerable.Range(0, 8).Select(n => Task.Run(() => NoticeAsync(n % 2 == 0 ? shop : other), Stop)));

        Assert.Equal(expected, raised.Sum());
        Assert.Equal(expected, await shop.CountAsync<ShopFlag>());
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task Quarantine_AndRelease_RaisesAtOnceAndGoesAway(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var quarantine = shop.Get<QuarantineLotHandler>();

        (await quarantine.HandleAsync(new QuarantineLot(shop.LotId, "Skin on top"), Some.Supervisor, Stop)).Done();

        var flag = Assert.Single(await OpenAsync(shop));
        Assert.Equal((LotRule.Code, LotRule.Quarantined, "L-1", "Emulsion A"), (flag.Rule, flag.Aspect, flag.Subject, flag.FluidName));
        Assert.Equal(0, await NoticeAsync(shop));
        (await quarantine.HandleAsync(new QuarantineLot(shop.LotId, null), Some.Supervisor, Stop)).Done();
        Assert.Empty(await OpenAsync(shop));
        (await quarantine.HandleAsync(new QuarantineLot(shop.LotId, "Again"), Some.Supervisor, Stop)).Done();
        Assert.Single(await OpenAsync(shop));
        Assert.Equal(2, await shop.CountAsync<ShopFlag>());
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task Answer_WhatWasDone_IsNotRaisedAgainBeforeItWasGone(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var (quarantine, answer) = (shop.Get<QuarantineLotHandler>(), shop.Get<AnswerShopFlagHandler>());
        (await quarantine.HandleAsync(new QuarantineLot(shop.LotId, "Skin on top"), Some.Supervisor, Stop)).Done();
        var flag = Assert.Single(await OpenAsync(shop));

        Assert.Equal(new FieldError("reason", FieldProblem.Missing), (await answer.HandleAsync(new AnswerShopFlag(flag.Id, " "), Some.Supervisor, Stop)).Field());
        Assert.Equal(FieldProblem.TooLong, (await answer.HandleAsync(new AnswerShopFlag(flag.Id, new string('x', 501)), Some.Supervisor, Stop)).Field().Problem);
        Assert.IsType<ShopFlagNotFound>((await answer.HandleAsync(new AnswerShopFlag(Some.Id(), "Sent back"), Some.Supervisor, Stop)).Refused());
        (await answer.HandleAsync(new AnswerShopFlag(flag.Id, "Sent back"), Some.Supervisor, Stop)).Done();
        Assert.Equal(new ShopFlagEndedAlready(flag.Id, shop.Now), (await answer.HandleAsync(new AnswerShopFlag(flag.Id, "Again"), Some.Supervisor, Stop)).Refused());

        shop.Clock.Advance(TimeSpan.FromDays(40));
        Assert.Equal(0, await NoticeAsync(shop));
        Assert.Empty(await OpenAsync(shop));
        var stored = await shop.ReadAsync(db => db.ShopFlags.SingleAsync());
        Assert.Equal(("Sent back", Some.Supervisor.PersonId, (DateTime?)null), (stored.Answer, stored.AnsweredByPersonId, stored.GoneAtUtc));
        (await quarantine.HandleAsync(new QuarantineLot(shop.LotId, null), Some.Supervisor, Stop)).Done();
        (await quarantine.HandleAsync(new QuarantineLot(shop.LotId, "Once more"), Some.Supervisor, Stop)).Done();
        Assert.Single(await OpenAsync(shop));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task Notice_OpenedLongerThanTheSheetAllows_IsFound(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var fluid = Some.Fluid(Some.Id(), "Emulsion B");
        (await shop.Get<AddFluidHandler>().HandleAsync(fluid with { Data = fluid.Data with { OpenedLifeDays = 30 } }, Some.Supervisor, Stop)).Done();
        var lot = await LotAsync(shop, fluidId: fluid.Id);
        await shop.SumpAsync(Some.Sump(Some.Id(), shop.AreaId, "S-08", "M-08"));
        (await shop.FillAsync(Some.Fill(Some.Id(), fluid.Id, lot, "S-08", shop.Now))).Done();

        shop.Clock.Advance(TimeSpan.FromDays(30));
        Assert.Equal(0, await NoticeAsync(shop));
        shop.Clock.Advance(TimeSpan.FromDays(1));
        Assert.Equal(1, await NoticeAsync(shop));

        Assert.Equal((LotRule.OpenedTooLong, 31m), Assert.Single(await OpenAsync(shop)) is var f ? (f.Aspect, f.Numbers[NumberNames.Days]) : default);
    }

    // 90 L in 30 days are 3 L a day, so 42 L for two weeks; the lot of 200 L holds 12 L less for the fill.
    [Theory]
    [EachDatabase(55, 0)]
    [EachDatabase(40, 1)]
    public async Task Notice_StockUnderWhatTopUpsUse_IsFoundAndGoesWithAReceipt(TestDatabase database, double left, int expected)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using (var write = await shop.Get<ShopDatabase>().WriteAsync(Stop))
        {
            var lot = await write.Database.FluidLots.SingleAsync(Stop);
            lot.Draw(lot.RemainingLitres - (decimal)left - 90);
            await write.CommitAsync(new("test", Some.Supervisor, shop.Now, ""), Stop);
        }

        for (var day = 0; day < 10; day++)
        {
            shop.Clock.Advance(TimeSpan.FromDays(1));
            (await shop.AddAsync(Some.Addition(shop.LotId, water: 0, concentrate: 9, removed: 9, at: shop.Now))).Done();
        }

        Assert.Equal(expected, await NoticeAsync(shop));
        Assert.All(await OpenAsync(shop), f => Assert.Equal((LotRule.LowStock, "Emulsion A", 40m, 42m), (f.Aspect, f.Subject, f.Numbers[NumberNames.UsableLitres], f.Numbers[NumberNames.NeededLitres])));
        await LotAsync(shop);
        Assert.Empty(await OpenAsync(shop));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task Check_LapsedInstrument_MarksWhatWasReadMeanwhileAndGoesWithTheCheck(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var instrument = Some.Refractometer();
        await shop.InstrumentAsync(instrument);
        var before = await ReadWithAsync(shop, instrument.Tag);
        Assert.Equal(1, await NoticeAsync(shop));
        var meanwhile = await ReadWithAsync(shop, instrument.Tag);

        var checks = shop.Get<NoteInstrumentCheckHandler>();
        Assert.IsType<InstrumentNotFound>((await checks.HandleAsync(LookedOver(Some.Id(), new DateOnly(2026, 3, 2)), Some.Supervisor, Stop)).Refused());
        Assert.Equal(FieldProblem.InTheFuture, (await checks.HandleAsync(LookedOver(instrument.Id, new DateOnly(2026, 3, 9)), Some.Supervisor, Stop)).Field().Problem);
        (await checks.HandleAsync(LookedOver(instrument.Id, new DateOnly(2026, 3, 2)), Some.Supervisor, Stop)).Done();
        (await checks.HandleAsync(LookedOver(instrument.Id, new DateOnly(2026, 1, 2)), Some.Supervisor, Stop)).Done();
        var after = await ReadWithAsync(shop, instrument.Tag);

        Assert.Empty(await OpenAsync(shop));
        Assert.Equal(new DateOnly(2026, 3, 2), (await shop.SetupAsync()).Instruments.Single().CheckedOn);
        Assert.Equal([[], ["R-1"], []], new[] { await LapsedAsync(shop, before), await LapsedAsync(shop, meanwhile), await LapsedAsync(shop, after) });
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task Notice_StripsAndOwnInterval_AreNotAskedBeforeTheirTime(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.InstrumentAsync(new AddInstrument(Some.Id(), "PS-1", InstrumentKind.PhStrips, 0.1m, 0.2m, false, null));
        await shop.InstrumentAsync(Some.Refractometer() with { CheckEveryDays = 10 });
        Assert.Equal(FieldProblem.OutOfRange, (await shop.Get<AddInstrumentHandler>().HandleAsync(Some.Refractometer("R-2") with { CheckEveryDays = 0 }, Some.Supervisor, Stop)).Field().Problem);

        Assert.Equal(0, await NoticeAsync(shop));
        shop.Clock.Advance(TimeSpan.FromDays(1));
        Assert.Equal(1, await NoticeAsync(shop));
    }

    [Theory, EachDatabase]
    public async Task Notice_ClockStepsBack_ChangesNothing(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await LotAsync(shop, expires: new DateOnly(2026, 3, 1));
        var raised = await shop.ReadAsync(db => db.ShopFlags.SingleAsync());

        await using var other = shop.Another();
        other.Clock.AdjustTime(new DateTimeOffset(shop.Now.AddDays(-2)));

        Assert.Equal(0, await NoticeAsync(other));
        var kept = await shop.ReadAsync(db => db.ShopFlags.SingleAsync());
        Assert.Equal((raised.Id, null), (kept.Id, kept.GoneAtUtc));
    }

    [Theory, EachDatabase]
    public async Task Database_SecondOfOneKindThatIsThere_IsRefusedByItsIndex(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await LotAsync(shop, expires: new DateOnly(2026, 3, 1));
        var flag = await shop.ReadAsync(db => db.ShopFlags.SingleAsync());
        await using var write = await shop.Get<ShopDatabase>().WriteAsync(Stop);
        write.Database.Add(new ShopFlag(Some.Id(), new ShopFinding(flag.Rule, 1, flag.Aspect, flag.SubjectId, Verdict.Warning, new Dictionary<string, decimal>(StringComparer.Ordinal), shop.Now), shop.Now));

        await Assert.ThrowsAsync<DbUpdateException>(() => write.FlushAsync(Stop));
    }

    private static Task<int> NoticeAsync(ShopFixture shop) => shop.Get<NoticeShopFlagsHandler>().HandleAsync(Stop);

    private static Task<IReadOnlyList<ListedShopFlag>> OpenAsync(ShopFixture shop) => shop.Get<ShopFlagsQuery>().OpenAsync(Stop);

    private static async Task<Guid> LotAsync(ShopFixture shop, DateOnly? expires = null, Guid? fluidId = null) =>
        (await shop.Get<ReceiveLotHandler>().HandleAsync(Some.Lot(Some.Id(), fluidId ?? shop.FluidId, "L-2", expires: expires), Some.Supervisor, Stop)).Done().Id;

    private static async Task<Guid> ReadWithAsync(ShopFixture shop, string instrument)
    {
        shop.Clock.Advance(TimeSpan.FromHours(1));
        var reading = Some.ReadingOf(Some.Typed(ParameterCodes.Concentration, 8.0m, instrument: instrument)) with { TakenAtUtc = shop.Now };
        var stored = await shop.StoreAsync(reading);
        shop.Clock.Advance(TimeSpan.FromHours(1));
        return stored.ReadingId;
    }

    private static async Task<IReadOnlyList<string>> LapsedAsync(ShopFixture shop, Guid readingId) =>
        (await new SavedPageQuery(shop.Get<ShopDatabase>(), shop.Get<SetupCache>(), shop.Get<Time.ShopClock>()).RunAsync(Some.SumpTag, readingId, Stop)).Done().LapsedInstruments;
}
