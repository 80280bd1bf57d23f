using ShopFluids.Core.Flags;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record.Replay;
using ShopFluids.Rules;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Record.Replay;

/// <summary>Judging the whole history again gives what was answered then; what no longer does is named.</summary>
public sealed class ReplayQueryTests
{
    [Theory, EachDatabase]
    public async Task RunAsync_FreshDatabase_JudgesNothing(TestDatabase database)
    {
        await using var shop = ShopFixture.Empty(database);

        var report = await RunAsync(shop);

        Assert.Equal((0, 0, 0, 0, 0), (report.Readings, report.OfTheClock, report.OfTheShop, report.Escalated, report.Differences.Count));
    }

    [Theory, EachDatabase]
    public async Task RunAsync_BusyShop_GivesTheSameAnswers(TestDatabase database)
    {
        await using var shop = await BusyShop.OpenAsync(database);

        var report = await RunAsync(shop);

        Assert.Equal(await shop.CountAsync<Reading>(), report.Readings);
        Assert.Empty(report.Differences);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_LateArrivalsCorrectionsAndClosedFlags_GivesTheSameAnswers(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test));
        shop.Clock.Advance(TimeSpan.FromDays(3));

        // All of it within one millisecond of the clock: only the record tells what came first.
        await shop.StoreAsync(Some.Reading(brix: 4.0m, takenAt: shop.Now.AddHours(-1)));
        await shop.StoreAsync(Some.Reading(brix: 8.0m, takenAt: shop.Now.AddHours(-2)));
        var wrong = Some.Reading(brix: 8.1m, ph: 8.2m, takenAt: shop.Now);
        await shop.StoreAsync(wrong);
        await shop.StoreAsync(Some.Reading(brix: 3.9m, ph: 8.3m, takenAt: shop.Now, supersedes: wrong.Id, reason: "Read again"));
        await shop.StoreAsync(Some.Reading(brix: null, ph: 9.1m, levelMm: null, takenAt: shop.Now.AddMinutes(1)));
        var flag = await shop.ReadAsync(db => Task.FromResult(db.Flags.First(f => f.EndedAtUtc == null)));
        (await shop.Get<CloseFlagHandler>().HandleAsync(new CloseFlag(flag.Id, "Seen"), Some.Supervisor, TestContext.Current.CancellationToken)).Done();
        (await shop.AddAsync(Some.Addition(shop.LotId, at: shop.Now.AddMinutes(-30)))).Done();
        shop.Clock.Advance(TimeSpan.FromDays(14));
        await shop.Get<NoticeOverdueHandler>().HandleAsync(TestContext.Current.CancellationToken);
        await shop.StoreAsync(Some.Reading(brix: 8.4m, takenAt: shop.Now));

        var report = await RunAsync(shop);

        // A late test, and the machine that stood meanwhile.
        Assert.Equal((6, 2), (report.Readings, report.OfTheClock));
        Assert.Empty(report.Differences);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_ReadingsOfADrainedCharge_GivesTheSameAnswers(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(ph: 9.3m));
        shop.Clock.Advance(TimeSpan.FromHours(1));
        await shop.StoreAsync(Some.Reading(ph: 8.2m, takenAt: shop.Now));
        shop.Clock.Advance(TimeSpan.FromHours(1));
        (await shop.DrainAsync(shop.Now)).Done();
        (await shop.FillAsync(Some.Fill(Some.Id(), shop.FluidId, shop.LotId, at: shop.Now, water: 100, concentrate: 8))).Done();
        shop.Clock.Advance(TimeSpan.FromHours(1));
        await shop.StoreAsync(Some.Reading(ph: 9.0m, takenAt: shop.Now));

        var report = await RunAsync(shop);

        Assert.Equal(3, report.Readings);
        Assert.Empty(report.Differences);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_LimitsOfThePastChangedByHand_NamesEachAnswerThatDiffers(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var reading = Some.Reading(brix: 6.5m);
        var outcome = await shop.StoreAsync(reading);
        Assert.Equal(Verdict.Warning, outcome.Verdict);
        await RawSql.ExecuteAsync(database, """UPDATE "LimitSets" SET "Limits" = '[]'""");

        var report = await RunAsync(shop.Another());

        Assert.All(report.Differences, d => Assert.Equal((Some.SumpTag, reading.Id, false), (d.Subject, d.ReadingId, d.IsSetupChanged)));
        Assert.Equal(
            [ReplayAspect.Verdicts, ReplayAspect.FlagsRaised, ReplayAspect.Recipe, ReplayAspect.TasksMade],
            report.Differences.Select(d => d.Aspect).Where(a => a is not ReplayAspect.Cautions));
        var flags = Assert.Single(report.Differences, d => d.Aspect == ReplayAspect.FlagsRaised);
        Assert.StartsWith("limit:concentration Warning Low", flags.Stored, StringComparison.Ordinal);
        Assert.Equal("", flags.Replayed);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_ReadingUnknownToTheRecord_SaysSo(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var reading = Some.Reading();
        await shop.StoreAsync(reading);
        await RawSql.ExecuteAsync(database, """DELETE FROM "RecordEntries" WHERE "Code" = 'reading.stored'""");

        var difference = Assert.Single((await RunAsync(shop)).Differences);

        Assert.Equal((ReplayAspect.NotInRecord, (Guid?)reading.Id), (difference.Aspect, difference.ReadingId));
    }

    private static Task<ReplayReport> RunAsync(ShopFixture shop) => shop.Get<ReplayQuery>().RunAsync(TestContext.Current.CancellationToken);
}
