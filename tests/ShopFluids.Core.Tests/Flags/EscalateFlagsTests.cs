using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Board;
using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Shutdowns;
using ShopFluids.Core.Database;
using ShopFluids.Core.Exchange;
using ShopFluids.Core.Flags;
using ShopFluids.Core.People;
using ShopFluids.Core.Record;
using ShopFluids.Core.Record.Replay;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Time;
using ShopFluids.Core.Tuning;
using ShopFluids.Rules;
using ShopFluids.Rules.Escalation;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Flags;

/// <summary>What nobody answers goes to the supervisor, once.</summary>
public sealed class EscalateFlagsTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    // Raised on Monday 08:00: an action goes after eight hours, a warning at the start of Wednesday.
    [Theory]
    [EachDatabase(4.0, "2026-03-02T14:59:59Z", 0)]
    [EachDatabase(4.0, "2026-03-02T15:00:00Z", 1)]
    [EachDatabase(6.5, "2026-03-04T04:59:59Z", 0)]
    [EachDatabase(6.5, "2026-03-04T05:00:00Z", 1)]
    [EachDatabase(6.5, "2027-03-04T05:00:00Z", 1)]
    public async Task Escalate_NobodyAnswered_ManyInstancesMarkItOnce(TestDatabase database, double brix, string now, int expected)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var other = shop.Another();
        await shop.StoreAsync(Some.Reading(brix: (decimal)brix));
        foreach (var instance in new[] { shop, other })
        {
            instance.Clock.SetUtcNow(DateTimeOffset.Parse(now, System.Globalization.CultureInfo.InvariantCulture));
        }

        var marked = await Task.WhenAll(Enumerable.Range(0, 8).Select(n => Task.Run(() => EscalateAsync(n % 2 == 0 ? shop : other), Stop)));

        Assert.Equal(expected, marked.Sum());
        Assert.Equal(expected == 1 ? shop.Now : (DateTime?)null, await shop.ReadAsync(db => db.Flags.Select(f => f.EscalatedAtUtc).SingleAsync()));
        Assert.Equal(expected, await shop.ReadAsync(db => db.RecordEntries.CountAsync(e => e.Code == ActCodes.FlagEscalated)));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task Escalate_HoursSetForTheShop_GoesByThem(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 4.0m));
        var command = new SetRule(Some.Id(), EscalationRule.RuleCode, null, null, null, new Dictionary<string, decimal> { [EscalationRule.ActionHours] = 1 }, "Small shop", 0);
        (await shop.Get<SetRuleHandler>().HandleAsync(command, Some.Supervisor, Stop)).Done();

        shop.Clock.Advance(TimeSpan.FromMinutes(59));
        Assert.Equal(0, await EscalateAsync(shop));
        shop.Clock.Advance(TimeSpan.FromMinutes(1));
        Assert.Equal(1, await EscalateAsync(shop));
    }

    [Theory, EachDatabase]
    public async Task Escalate_Marked_StandsOnBoardAndInListAndStaysWhenTheClockStepsBack(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 4.0m));
        shop.Clock.Advance(TimeSpan.FromDays(1));
        Assert.Equal(1, await EscalateAsync(shop));
        var at = shop.Now;

        await using var other = shop.Another();
        other.Clock.AdjustTime(new DateTimeOffset(at.AddDays(-3)));
        Assert.Equal(0, await EscalateAsync(other));
        shop.Clock.Advance(TimeSpan.FromDays(30));
        Assert.Equal(0, await EscalateAsync(shop));

        var board = await BoardAsync(shop);
        Assert.Equal((Some.Start, at), Assert.Single(board.Rows) is var row ? (row.UnansweredSinceUtc, row.Flags[0].EscalatedAtUtc) : default);
        var listed = await new FlagsQuery(shop.Get<ShopDatabase>(), shop.Get<SetupCache>()).RunAsync(isOpen: true, null, 10, Stop);
        Assert.Equal(at, Assert.Single(listed.Items).EscalatedAtUtc);
    }

    // The flag stays the supervisor's; that it is unanswered is no longer said.
    [Theory, EachDatabase]
    public async Task Escalate_AnsweredAfterwards_NoLongerCountsAsUnanswered(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 4.0m));
        shop.Clock.Advance(TimeSpan.FromDays(1));
        Assert.Equal(1, await EscalateAsync(shop));

        shop.Clock.Advance(TimeSpan.FromHours(1));
        (await shop.AddAsync(Some.Addition(shop.LotId, at: shop.Now))).Done();

        Assert.Null(Assert.Single((await BoardAsync(shop)).Rows).UnansweredSinceUtc);
        Assert.NotNull(await shop.ReadAsync(db => db.Flags.Select(f => f.EscalatedAtUtc).FirstAsync()));
    }

    [Theory]
    [EachDatabase("read")]
    [EachDatabase("moved")]
    [EachDatabase("given")]
    [EachDatabase("ended")]
    public async Task Escalate_SomebodyDidSomething_IsAnswered(TestDatabase database, string what)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Skim));
        await shop.StoreAsync(Some.Reading(brix: 4.0m));
        shop.Clock.Advance(TimeSpan.FromHours(1));
        switch (what)
        {
            case "read":
                await shop.StoreAsync(Some.Reading(brix: 4.1m, takenAt: shop.Now));
                break;
            case "moved":
                (await shop.AddAsync(Some.Addition(shop.LotId, at: shop.Now))).Done();
                break;
            case "given":
                await GiveAsync(shop);
                break;
            default:
                var skim = await shop.ReadAsync(db => db.CareTasks.SingleAsync(t => t.Kind == TaskKind.Skim));
                (await shop.Get<EndTaskHandler>().HandleAsync(new EndTask(skim.Id, TaskState.Done), Some.Operator, isSupervisor: false, Stop)).Done();
                break;
        }

        shop.Clock.Advance(TimeSpan.FromDays(30));

        Assert.Equal(0, await EscalateAsync(shop));
    }

    // What goes with a shutdown that is called off was done by nobody.
    [Theory, EachDatabase]
    public async Task Escalate_AShutdownCameAndWent_IsStillUnanswered(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 4.0m));
        shop.Clock.Advance(TimeSpan.FromHours(1));
        var shutdown = Some.Id();
        (await shop.Get<PlanShutdownHandler>().HandleAsync(new PlanShutdown(shutdown, Some.SumpTag, new DateOnly(2026, 3, 9), new DateOnly(2026, 3, 13), "Spindle repair"), Some.Supervisor, Stop)).Done();
        (await shop.Get<EndShutdownHandler>().HandleAsync(new EndShutdown(shutdown), Some.Supervisor, Stop)).Done();

        shop.Clock.Advance(TimeSpan.FromDays(30));

        Assert.Equal(1, await EscalateAsync(shop));
        Assert.Empty((await shop.Get<ReplayQuery>().RunAsync(Stop)).Differences);
    }

    // Seven tags of twenty characters are more than an entry's subject holds: whole ones, as many as fit.
    [Theory, EachDatabase]
    public async Task Escalate_MoreSumpsThanASubjectHolds_NamesAsManyAsFit(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var tags = Enumerable.Range(1, 7).Select(n => $"SUMP-OF-THE-HALL-0{n}").Select(t => t.PadRight(20, 'X')).ToList();
        foreach (var tag in tags)
        {
            await shop.SumpAsync(Some.Sump(Some.Id(), shop.AreaId, tag, $"M-{tag[^5..]}{tags.IndexOf(tag)}"));
            (await shop.FillAsync(Some.Fill(Some.Id(), shop.FluidId, shop.LotId, tag, water: 10, concentrate: 1))).Done();
            await shop.StoreAsync(Some.Reading(brix: 4.0m, sump: tag));
        }

        shop.Clock.Advance(TimeSpan.FromDays(30));

        Assert.True(await EscalateAsync(shop) >= 7);
        var subject = await shop.ReadAsync(db => db.RecordEntries.Where(e => e.Code == ActCodes.FlagEscalated).Select(e => e.Subject).SingleAsync(Stop));
        Assert.Equal(string.Join(", ", tags.Take(5)), subject);
    }

    [Theory, EachDatabase]
    public async Task Escalate_ShopFlagNobodyAnswered_IsMarkedOnce(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        (await shop.Get<QuarantineLotHandler>().HandleAsync(new QuarantineLot(shop.LotId, "Skin on top"), Some.Supervisor, Stop)).Done();
        Assert.Equal(0, await EscalateAsync(shop));
        shop.Clock.Advance(TimeSpan.FromDays(2));

        Assert.Equal(1, await EscalateAsync(shop));
        Assert.Equal(0, await EscalateAsync(shop));
        Assert.Equal(shop.Now, Assert.Single((await BoardAsync(shop)).ShopFlags).EscalatedAtUtc);
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    private static Task<int> EscalateAsync(ShopFixture shop) => shop.Get<EscalateFlagsHandler>().HandleAsync(Stop);

    private static Task<ShopBoard> BoardAsync(ShopFixture shop) =>
        new BoardQuery(shop.Get<ShopDatabase>(), shop.Get<SetupCache>(), shop.Get<ShopClock>()).RunAsync(new BoardFilter(), Stop);

    private static async Task GiveAsync(ShopFixture shop)
    {
        var person = Some.Id();
        (await shop.Get<MakeAccountHandler>().HandleAsync(new MakeAccount(person, "op1", "Op One", "ten signs and more", [Roles.Operator], "light"), Some.Supervisor, Stop)).Done();
        var task = await shop.ReadAsync(db => db.CareTasks.FirstAsync(t => t.Kind == TaskKind.Adjust));
        (await shop.Get<AssignTaskHandler>().HandleAsync(new AssignTask(task.Id, person), Some.Supervisor, Stop)).Done();
    }
}
