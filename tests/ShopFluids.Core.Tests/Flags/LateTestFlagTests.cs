using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Setup;
using ShopFluids.Rules;
using ShopFluids.Rules.OverdueTest;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Flags;

/// <summary>The flag for late tests goes with whatever leaves none late.</summary>
public sealed class LateTestFlagTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task HandleAsync_LateTestIsSkipped_EndsTheFlag(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await OneIsLateAsync(shop);

        await SkipAsync(shop);

        var flag = await shop.ReadAsync(db => db.Flags.SingleAsync());
        Assert.Equal((FlagEnd.Cleared, (DateTime?)shop.Now, Some.Supervisor.PersonId), (flag.EndedHow, flag.EndedAtUtc, flag.EndedByPersonId));
        Assert.Equal(0, await shop.Get<NoticeOverdueHandler>().HandleAsync(Stop));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_StepOfTheLateTestIsStopped_EndsTheFlag(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var step = await OneIsLateAsync(shop);

        (await shop.Get<StopCareStepHandler>().HandleAsync(new StopCareStep(step), Some.Supervisor, Stop)).Done();

        Assert.Equal(FlagEnd.Cleared, await shop.ReadAsync(db => db.Flags.Select(f => f.EndedHow).SingleAsync()));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_AnotherTestIsLateStill_KeepsTheFlag(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await OneIsLateAsync(shop);
        await shop.StepAsync(Some.Step(TaskKind.Test, parameters: [ParameterCodes.Nitrite]));
        shop.Clock.Advance(TimeSpan.FromDays(14));

        await SkipAsync(shop);

        var flag = await shop.ReadAsync(db => db.Flags.SingleAsync());
        Assert.Equal((OverdueTestRule.Code, (DateTime?)null), (flag.Rule, flag.EndedAtUtc));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // Whoever closed it knows why that test is late; the next one that is late is another matter.
    [Theory, EachDatabase]
    public async Task HandleAsync_FlagWasClosed_IsRaisedAgainForTheNextLateTestAlone(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await OneIsLateAsync(shop);
        var flag = await shop.ReadAsync(db => db.Flags.SingleAsync());
        (await shop.Get<CloseFlagHandler>().HandleAsync(new CloseFlag(flag.Id, "The meter is away"), Some.Supervisor, Stop)).Done();
        await shop.StepAsync(Some.Step(TaskKind.Test, parameters: [ParameterCodes.Nitrite]));

        Assert.Equal(0, await shop.Get<NoticeOverdueHandler>().HandleAsync(Stop));

        shop.Clock.Advance(TimeSpan.FromDays(14));
        Assert.Equal(1, await shop.Get<NoticeOverdueHandler>().HandleAsync(Stop));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // Due at the end of Monday; looked at two days later.
    private static async Task<Guid> OneIsLateAsync(ShopFixture shop)
    {
        var step = await shop.StepAsync(Some.Step(TaskKind.Test));
        shop.Clock.Advance(TimeSpan.FromDays(2));
        Assert.Equal(1, await shop.Get<NoticeOverdueHandler>().HandleAsync(Stop));
        return step.Id;
    }

    private static async Task SkipAsync(ShopFixture shop)
    {
        var task = await shop.ReadAsync(db => db.CareTasks.Where(t => t.State == TaskState.Open).OrderBy(t => t.DueAtUtc).ThenBy(t => t.CreatedAtUtc).FirstAsync());
        (await shop.Get<EndTaskHandler>().HandleAsync(new EndTask(task.Id, TaskState.Skipped, "Machine stands still"), Some.Supervisor, isSupervisor: true, Stop)).Done();
    }
}
