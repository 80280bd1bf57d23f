using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Flags;
using ShopFluids.Rules;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.OverdueTest;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Flags;

/// <summary>Invariant 9: a flag is open until a later reading clears it, a supervisor closes it with a reason, or the charge ends.</summary>
public sealed class FlagLifeTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    // The limit is 7.0 and the margin 0.2: a value back on the limit is in range but does not clear.
    [Theory]
    [EachDatabase(7.0, false)]
    [EachDatabase(7.1, false)]
    [EachDatabase(7.2, true)]
    public async Task Record_BackInside_ClearsOnlyBeyondTheMargin(TestDatabase database, double brix, bool isCleared)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var raised = Assert.Single((await shop.StoreAsync(Some.Reading(brix: 6.5m))).Raised);
        shop.Clock.Advance(TimeSpan.FromHours(1));

        var later = await shop.StoreAsync(Some.Reading(brix: (decimal)brix, takenAt: shop.Now));

        var flag = await shop.ReadAsync(db => db.Flags.SingleAsync());
        Assert.Equal(isCleared ? [raised.Id] : [], later.Cleared.Select(f => f.Id));
        Assert.Equal(isCleared ? (FlagEnd.Cleared, later.ReadingId) : ((FlagEnd?)null, (Guid?)null), (flag.EndedHow, flag.EndedByReadingId));
        Assert.Equal(isCleared ? TaskState.Withdrawn : TaskState.Open, await shop.ReadAsync(db => db.CareTasks.Select(t => t.State).SingleAsync()));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task Close_WithAReason_EndsTheFlagAndItsWork(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var flag = Assert.Single((await shop.StoreAsync(Some.Reading(brix: 4.0m))).Raised);
        var handler = shop.Get<CloseFlagHandler>();

        Assert.Equal(new FieldError("reason", FieldProblem.Missing), (await handler.HandleAsync(new CloseFlag(flag.Id, " "), Some.Supervisor, Stop)).Field());
        Assert.Equal(FieldProblem.TooLong, (await handler.HandleAsync(new CloseFlag(flag.Id, new string('x', 501)), Some.Supervisor, Stop)).Field().Problem);
        Assert.IsType<FlagNotFound>((await handler.HandleAsync(new CloseFlag(Some.Id(), "Known"), Some.Supervisor, Stop)).Refused());
        (await handler.HandleAsync(new CloseFlag(flag.Id, "Sample was water"), Some.Supervisor, Stop)).Done();
        Assert.IsType<FlagEndedAlready>((await handler.HandleAsync(new CloseFlag(flag.Id, "Again"), Some.Supervisor, Stop)).Refused());

        var stored = await shop.ReadAsync(db => db.Flags.SingleAsync());
        Assert.Equal((FlagEnd.Closed, "Sample was water", Some.Supervisor.PersonId), (stored.EndedHow, stored.EndReason, stored.EndedByPersonId));
        Assert.Equal(TaskState.Withdrawn, await shop.ReadAsync(db => db.CareTasks.Select(t => t.State).SingleAsync()));
        Assert.Equal(0, await shop.ReadAsync(db => db.Standings.Select(s => s.OpenFlagCount).SingleAsync()));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // What was to be drained got no other work: once nobody drains it any more, it does.
    [Theory, EachDatabase]
    public async Task Close_FlagThatDrains_AsksForTheAdjustingThatWaited(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var raised = (await shop.StoreAsync(Some.Reading(brix: 4.0m) with { Measurements = [.. Some.Reading(brix: 4.0m).Measurements, Some.Typed(ParameterCodes.Odour, 3)] })).Raised;
        Assert.Equal([TaskKind.DrainClean], await OpenKindsAsync(shop));

        (await shop.Get<CloseFlagHandler>().HandleAsync(new CloseFlag(raised.Single(f => f.Parameter == ParameterCodes.Odour).Id, "Smell of the floor cleaner"), Some.Supervisor, Stop)).Done();

        Assert.Equal([TaskKind.Adjust], await OpenKindsAsync(shop));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    private static Task<List<TaskKind>> OpenKindsAsync(ShopFixture shop) => shop.ReadAsync(db => db.CareTasks.Where(t => t.State == TaskState.Open).Select(t => t.Kind).ToListAsync());

    [Theory, EachDatabase]
    public async Task Database_SecondOpenFlagOfOneRule_IsRefusedByItsIndex(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 4.0m));
        await using var write = await shop.Get<ShopDatabase>().WriteAsync(Stop);
        var raised = new RaisedFlag("limit", 1, ParameterCodes.Concentration, Verdict.Warning, Direction.Low, new Dictionary<string, decimal>(StringComparer.Ordinal));
        write.Database.Add(new Flag(Some.Id(), shop.SumpId, shop.ChargeId, raised, null, Some.Start, null));

        await Assert.ThrowsAsync<DbUpdateException>(() => write.FlushAsync(Stop));
    }

    // Due by the end of Monday's shop day, Tuesday 06:00 in Berlin: late from that moment on.
    [Theory]
    [EachDatabase("2026-03-03T04:59:59.999Z", 0)]
    [EachDatabase("2026-03-03T05:00:00Z", 1)]
    [EachDatabase("2026-04-20T12:00:00Z", 1)]
    public async Task NoticeOverdue_TestLate_RaisesOnce(TestDatabase database, string now, int expected)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var other = shop.Another();
        await shop.StepAsync(Some.Step(TaskKind.Test));
        foreach (var instance in new[] { shop, other })
        {
            instance.Clock.SetUtcNow(DateTimeOffset.Parse(now, System.Globalization.CultureInfo.InvariantCulture));
        }

        var raised = await Task.WhenAll(Enumerable.Range(0, 8).Select(n => Task.Run(() => (n % 2 == 0 ? shop : other).Get<NoticeOverdueHandler>().HandleAsync(Stop), Stop)));

        Assert.Equal(expected, raised.Sum());
        Assert.Equal(expected, await shop.ReadAsync(db => db.Flags.CountAsync(f => f.Rule == OverdueTestRule.Code)));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task Record_OverdueTestTaken_ClearsTheFlag(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test));
        shop.Clock.Advance(TimeSpan.FromDays(3));
        Assert.Equal(1, await shop.Get<NoticeOverdueHandler>().HandleAsync(Stop));

        var outcome = await shop.StoreAsync(Some.Reading(takenAt: shop.Now));

        Assert.Equal(OverdueTestRule.Code, Assert.Single(outcome.Cleared).Rule);
        Assert.Equal(0, await shop.Get<NoticeOverdueHandler>().HandleAsync(Stop));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // A fall of more than 1.0 from the first fill asks for draining (DGUV Regel 109-003, Annex 3, no. 2).
    [Theory, EachDatabase]
    public async Task Record_PhFallsFromTheFirstFill_AsksForDrainingWhichTheDrainDoes(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(ph: 9.4m));
        shop.Clock.Advance(TimeSpan.FromDays(1));

        var outcome = await shop.StoreAsync(Some.Reading(ph: 8.3m, takenAt: shop.Now));

        Assert.Contains(outcome.Raised, f => f.Rule == "first-fill-drop" && f.Severity == Verdict.Action);
        var task = Assert.Single(outcome.Made, t => t.Kind == TaskKind.DrainClean);
        (await shop.DrainAsync(shop.Now)).Done();
        Assert.Equal(TaskState.Done, await shop.ReadAsync(db => db.CareTasks.Where(t => t.Id == task.Id).Select(t => t.State).SingleAsync()));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }
}
