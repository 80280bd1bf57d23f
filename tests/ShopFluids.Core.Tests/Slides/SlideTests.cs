using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record.Replay;
using ShopFluids.Core.Slides;
using ShopFluids.Core.Tuning;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.UnreadSlide;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Slides;

/// <summary>A slide is started now, read when something has grown, and counts for the moment at which it was dipped.</summary>
public sealed class SlideTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task Start_Twice_StartsOneWithItsWork(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var command = Start(shop);

        var first = (await shop.Get<StartSlideHandler>().HandleAsync(command, Some.Operator, Stop)).Done();
        var second = (await shop.Get<StartSlideHandler>().HandleAsync(command, Some.Operator, Stop)).Done();

        Assert.Equal((true, false), (first.IsNew, second.IsNew));
        Assert.Equal((shop.Now.AddHours(24), shop.Now.AddHours(36)), (first.ReadFromUtc, first.ReadUntilUtc));
        var task = await shop.ReadAsync(db => db.CareTasks.SingleAsync(t => t.Kind == TaskKind.ReadSlide));
        Assert.Equal((shop.Now.AddHours(36), TaskState.Open), (task.DueAtUtc, task.State));
        Assert.IsType<OtherContentForId>((await shop.Get<StartSlideHandler>().HandleAsync(command with { Incubation = SlideIncubation.Room }, Some.Operator, Stop)).Error);
        await AssertSoundAsync(shop);
    }

    // A value of later is known: the slide's still takes its place in time, with what follows from it.
    [Theory, EachDatabase]
    public async Task End_ReadInItsWindow_IsAReadingOfTheDip(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var slide = await StartedAsync(shop);
        var dippedAt = shop.Now;
        shop.Clock.Advance(TimeSpan.FromHours(20));
        await shop.StoreAsync(Some.Reading(takenAt: shop.Now));
        shop.Clock.Advance(TimeSpan.FromHours(10));
        var read = new EndSlide(slide, new(Some.Id(), shop.Now, 6));

        var ended = (await EndAsync(shop, read)).Done();
        var again = (await EndAsync(shop, read)).Done();

        Assert.Equal((false, true, false), (ended.IsLate, ended.IsNew, again.IsNew));
        Assert.Contains(ended.Outcome?.Raised ?? [], f => f.Parameter == ParameterCodes.Bacteria && f.Severity == Verdict.Action);
        var reading = await shop.ReadAsync(db => db.Readings.Include(r => r.Measurements).SingleAsync(r => r.Id == read.Read!.ReadingId));
        Assert.Equal((dippedAt, 6.0), (reading.TakenAtUtc, Assert.Single(reading.Measurements).Value));
        var stored = await shop.ReadAsync(db => db.Slides.SingleAsync());
        Assert.Equal((SlideEnd.Read, (DateTime?)shop.Now, (Guid?)reading.Id), (stored.EndedHow.GetValueOrDefault(), stored.EndedAtUtc, stored.ReadingId));
        Assert.Equal(TaskState.Done, await TaskStateAsync(shop));
        Assert.IsType<SlideEndedAlready>((await EndAsync(shop, new(slide, null, "Broken"))).Error);
        await AssertSoundAsync(shop);
    }

    // Kept at 30 °C: readable from 24 h, in its window until 36 h, readable at all until 120 h.
    [Theory]
    [EachDatabase(23.99, nameof(SlideTooEarly), false)]
    [EachDatabase(24.0, "", false)]
    [EachDatabase(36.0, "", false)]
    [EachDatabase(36.01, "", true)]
    [EachDatabase(120.0, "", true)]
    [EachDatabase(120.01, nameof(SlideTooLate), false)]
    public async Task End_ReadAfterHours_IsRefusedOrMarked(TestDatabase database, double hours, string refusal, bool isLate)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var slide = await StartedAsync(shop);
        shop.Clock.Advance(TimeSpan.FromHours(hours));

        var result = await EndAsync(shop, new(slide, new(Some.Id(), shop.Now, 4)));

        Assert.Equal(refusal, result.Error?.GetType().Name ?? "");
        Assert.Equal((isLate, refusal.Length == 0), (result.Value?.IsLate ?? false, !await shop.ReadAsync(db => db.Slides.AnyAsync(s => s.EndedAtUtc == null))));
        await AssertSoundAsync(shop);
    }

    [Theory]
    [EachDatabase("2026-03-03T18:59:59.999Z", 0)]
    [EachDatabase("2026-03-03T19:00:00Z", 1)]
    public async Task Notice_NotReadInItsWindow_ManyInstancesFlagItOnce(TestDatabase database, string now, int expected)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var other = shop.Another();
        await shop.StepAsync(Some.Step(TaskKind.Test, basis: IntervalBasis.FromLastDone, days: 60));
        await shop.StoreAsync(Some.Reading());
        await StartedAsync(shop);
        foreach (var instance in new[] { shop, other })
        {
            instance.Clock.SetUtcNow(DateTimeOffset.Parse(now, System.Globalization.CultureInfo.InvariantCulture));
        }

        await Task.WhenAll(Enumerable.Range(0, 8).Select(n => Task.Run(() => (n % 2 == 0 ? shop : other).Get<NoticeOverdueHandler>().HandleAsync(Stop), Stop)));

        Assert.Equal(expected, await shop.ReadAsync(db => db.Flags.CountAsync(f => f.Rule == UnreadSlideRule.RuleCode)));
        await AssertSoundAsync(shop);
    }

    [Theory]
    [EachDatabase(true)]
    [EachDatabase(false)]
    public async Task End_WasFlagged_EndsTheFlag(TestDatabase database, bool isRead)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var slide = await StartedAsync(shop);
        shop.Clock.Advance(TimeSpan.FromHours(40));
        Assert.Equal(1, await shop.Get<NoticeOverdueHandler>().HandleAsync(Stop));

        (await EndAsync(shop, new(slide, isRead ? new(Some.Id(), shop.Now, 3) : null, "Fell on the floor"))).Done();

        Assert.Equal(FlagEnd.Cleared, await shop.ReadAsync(db => db.Flags.Where(f => f.Rule == UnreadSlideRule.RuleCode).Select(f => f.EndedHow).SingleAsync()));
        Assert.Equal(isRead ? TaskState.Done : TaskState.Withdrawn, await TaskStateAsync(shop));
        await AssertSoundAsync(shop);
    }

    // A supervisor who closed it knows of that slide; of the next one that nobody reads the sump is flagged again.
    [Theory, EachDatabase]
    public async Task Notice_FlagWasClosed_IsRaisedAgainForTheNextSlideAlone(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await StartedAsync(shop);
        shop.Clock.Advance(TimeSpan.FromHours(40));
        Assert.Equal(1, await shop.Get<NoticeOverdueHandler>().HandleAsync(Stop));
        var flag = await shop.ReadAsync(db => db.Flags.Where(f => f.Rule == UnreadSlideRule.RuleCode).Select(f => f.Id).SingleAsync());
        (await shop.Get<CloseFlagHandler>().HandleAsync(new CloseFlag(flag, "The incubator failed"), Some.Supervisor, Stop)).Done();
        shop.Clock.Advance(TimeSpan.FromHours(1));

        Assert.Equal(0, await shop.Get<NoticeOverdueHandler>().HandleAsync(Stop));

        await StartedAsync(shop);
        shop.Clock.Advance(TimeSpan.FromHours(40));
        Assert.Equal(1, await shop.Get<NoticeOverdueHandler>().HandleAsync(Stop));
        await AssertSoundAsync(shop);
    }

    [Theory, EachDatabase]
    public async Task End_DiscardedWithoutAReason_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var slide = await StartedAsync(shop);

        Assert.Equal(SlideFields.Reason, Assert.Single(Assert.IsType<FieldErrors>((await EndAsync(shop, new(slide, null, " "))).Error).Fields).Field);
        Assert.IsType<SlideNotFound>((await EndAsync(shop, new(Some.Id(), null, "Broken"))).Error);
    }

    [Theory, EachDatabase]
    public async Task Drain_SlideWaits_IsDiscardedWithTheCharge(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var slide = await StartedAsync(shop);
        shop.Clock.Advance(TimeSpan.FromHours(30));

        (await shop.DrainAsync(shop.Now)).Done();

        Assert.Equal(SlideEnd.Discarded, await shop.ReadAsync(db => db.Slides.Select(s => s.EndedHow).SingleAsync()));
        Assert.Equal(TaskState.Withdrawn, await TaskStateAsync(shop));
        Assert.IsType<SlideEndedAlready>((await EndAsync(shop, new(slide, new(Some.Id(), shop.Now, 3)))).Error);
        await AssertSoundAsync(shop);
    }

    [Theory, EachDatabase]
    public async Task EndTask_Skipped_DiscardsTheSlideAndDoneIsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await StartedAsync(shop);
        var task = await shop.ReadAsync(db => db.CareTasks.Where(t => t.Kind == TaskKind.ReadSlide).Select(t => t.Id).SingleAsync());

        Assert.IsType<NotTickedOff>((await shop.Get<EndTaskHandler>().HandleAsync(new EndTask(task, TaskState.Done), Some.Operator, isSupervisor: false, Stop)).Error);
        (await shop.Get<EndTaskHandler>().HandleAsync(new EndTask(task, TaskState.Skipped, "Lost"), Some.Operator, isSupervisor: false, Stop)).Done();

        Assert.Equal("Lost", await shop.ReadAsync(db => db.Slides.Where(s => s.EndedHow == SlideEnd.Discarded).Select(s => s.EndReason).SingleAsync()));
        await AssertSoundAsync(shop);
    }

    [Theory, EachDatabase]
    public async Task Start_HoursSetForTheFluid_WindowFollowsThem(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var numbers = new Dictionary<string, decimal> { [UnreadSlideRule.RoomHours] = 48, [UnreadSlideRule.WindowHours] = 6 };
        (await shop.Get<SetRuleHandler>().HandleAsync(new SetRule(Some.Id(), UnreadSlideRule.RuleCode, shop.FluidId, null, null, numbers, "Leaflet of our slides", 0), Some.Supervisor, Stop)).Done();

        var started = (await shop.Get<StartSlideHandler>().HandleAsync(Start(shop) with { Incubation = SlideIncubation.Room }, Some.Operator, Stop)).Done();

        Assert.Equal((shop.Now.AddHours(48), shop.Now.AddHours(54)), (started.ReadFromUtc, started.ReadUntilUtc));
    }

    [Theory, EachDatabase]
    public async Task Start_Impossible_NamesWhat(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        shop.Clock.Advance(TimeSpan.FromDays(10));
        var handler = shop.Get<StartSlideHandler>();

        Assert.IsType<SumpNotFound>((await handler.HandleAsync(Start(shop) with { SumpTag = "S-99" }, Some.Operator, Stop)).Error);
        var refused = Assert.IsType<FieldErrors>((await handler.HandleAsync(Start(shop) with { Parameter = ParameterCodes.Ph, Incubation = (SlideIncubation)7, DippedAtUtc = shop.Now.AddHours(1) }, Some.Operator, Stop)).Error);
        Assert.Equal([(SlideFields.Parameter, FieldProblem.UnknownChoice), (SlideFields.Incubation, FieldProblem.UnknownChoice), (SlideFields.DippedAt, FieldProblem.InTheFuture)], refused.Fields.Select(f => (f.Field, f.Problem)));
        var old = Assert.IsType<FieldErrors>((await handler.HandleAsync(Start(shop) with { DippedAtUtc = shop.Now.AddHours(-121) }, Some.Operator, Stop)).Error);
        Assert.Equal(FieldProblem.SlideTooOld, Assert.Single(old.Fields).Problem);
        Assert.Equal(0, await shop.CountAsync<Slide>());
    }

    [Theory, EachDatabase]
    public async Task End_ManyAtOnce_OneIsStored(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var slide = await StartedAsync(shop);
        await using var other = shop.Another();
        shop.Clock.Advance(TimeSpan.FromHours(25));
        other.Clock.SetUtcNow(shop.Clock.GetUtcNow());

        var answers = await Task.WhenAll(Enumerable.Range(0, 8).Select(n => Task.Run(() => EndAsync(n % 2 == 0 ? shop : other, new(slide, new(Some.Id(), shop.Now, 3))), Stop)));

        Assert.Equal((1, 7), (answers.Count(a => a.Value is not null), answers.Count(a => a.Error is SlideEndedAlready)));
        Assert.Equal(1, await shop.CountAsync<Reading>());
        await AssertSoundAsync(shop);
    }

    private static StartSlide Start(ShopFixture shop) => new(Some.Id(), Some.SumpTag, ParameterCodes.Bacteria, SlideIncubation.Incubator, shop.Now);

    private static async Task<Guid> StartedAsync(ShopFixture shop) => (await shop.Get<StartSlideHandler>().HandleAsync(Start(shop), Some.Operator, Stop)).Done().Id;

    private static Task<Result<EndedSlide>> EndAsync(ShopFixture shop, EndSlide command) => shop.Get<EndSlideHandler>().HandleAsync(command, Some.Operator, Stop);

    private static Task<TaskState> TaskStateAsync(ShopFixture shop) => shop.ReadAsync(db => db.CareTasks.Where(t => t.Kind == TaskKind.ReadSlide).Select(t => t.State).SingleAsync());

    private static async Task AssertSoundAsync(ShopFixture shop)
    {
        Assert.Empty((await shop.VerifyAsync()).Findings);
        Assert.Empty((await shop.Get<ReplayQuery>().RunAsync(Stop)).Differences);
    }
}
