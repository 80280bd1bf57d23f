using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Finds;
using ShopFluids.Core.Database;
using ShopFluids.Core.Record;
using ShopFluids.Rules;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Care.Finds;

/// <summary>What was found when work was done: kept with its task, checked by its kind, never needed.</summary>
public sealed class WorkFindTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory]
    [EachDatabase(TaskKind.Skim, FindNames.OilLitres, 1.25, "belt worn")]
    [EachDatabase(TaskKind.ChangeFilter, FindNames.FilterState, 3.0, "")]
    [EachDatabase(TaskKind.Circulate, FindNames.CirculatedMinutes, 10080.0, "")]
    [EachDatabase(TaskKind.Inspect, null, null, "way lube runs into the sump")]
    public async Task HandleAsync_DoneWithAFind_KeepsItAndPlansTheNext(TestDatabase database, TaskKind kind, string? what, double? value, string note)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var task = await OpenAsync(shop, kind);

        (await EndAsync(shop, task.Id, new(what, (decimal?)value, $" {note} "))).Done();

        var ended = await shop.ReadAsync(db => db.CareTasks.SingleAsync(t => t.Id == task.Id));
        Assert.Equal(new WorkFind(what ?? "", (decimal?)value, note), ended.Found);
        Assert.Null((await shop.ReadAsync(db => db.CareTasks.SingleAsync(t => t.State == TaskState.Open))).Found);
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // The sump holds 200 L and is 400 mm deep.
    [Theory]
    [EachDatabase(TaskKind.Skim, FindNames.OilLitres, -0.1, 0.0, 200.0, "L")]
    [EachDatabase(TaskKind.Skim, FindNames.OilLitres, 200.1, 0.0, 200.0, "L")]
    [EachDatabase(TaskKind.Circulate, FindNames.CirculatedMinutes, 10081.0, 0.0, 10080.0, "min")]
    public async Task HandleAsync_NumberOutOfRange_NamesTheRangeAndStoresNothing(TestDatabase database, TaskKind kind, string what, double value, double low, double high, string unit)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var task = await OpenAsync(shop, kind);
        var before = await shop.FootprintAsync();

        var refused = (await EndAsync(shop, task.Id, new(what, (decimal)value, null))).Field();

        Assert.Equal(new FieldError(what, FieldProblem.OutOfRange, (decimal)value, (decimal)low, (decimal)high, unit), refused);
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory]
    [EachDatabase(TaskKind.ChangeFilter, FindNames.FilterState, 0.5, FieldProblem.UnknownChoice)]
    [EachDatabase(TaskKind.ChangeFilter, FindNames.FilterState, 4.0, FieldProblem.UnknownChoice)]
    [EachDatabase(TaskKind.ChangeFilter, FindNames.OilLitres, 1.0, FieldProblem.NotAskedHere)]
    [EachDatabase(TaskKind.Inspect, FindNames.OilLitres, 1.0, FieldProblem.NotAskedHere)]
    public async Task HandleAsync_FindOfAnotherKind_IsRefused(TestDatabase database, TaskKind kind, string what, double value, FieldProblem problem)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var task = await OpenAsync(shop, kind);

        Assert.Equal(new FieldError(what, problem), (await EndAsync(shop, task.Id, new(what, (decimal)value, null))).Field());
        Assert.Equal(new FieldError(FindNames.Note, FieldProblem.TooLong, 501, 0, 500), (await EndAsync(shop, task.Id, new(null, null, new string('x', 501)))).Field());
    }

    // The same press twice is one act; another number for work that is done is told, not lost.
    [Theory, EachDatabase]
    public async Task HandleAsync_PressedAgain_SameFindIsTheSameActAnotherIsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var task = await OpenAsync(shop, TaskKind.Skim);
        var first = (await EndAsync(shop, task.Id, new(FindNames.OilLitres, 2, null))).Done();
        var before = await shop.FootprintAsync();

        Assert.Equal(first, (await EndAsync(shop, task.Id, new(FindNames.OilLitres, 2.0m, ""))).Done());
        Assert.Equal(first, (await EndAsync(shop, task.Id, null)).Done());
        Assert.IsType<TaskEndedAlready>((await EndAsync(shop, task.Id, new(FindNames.OilLitres, 3, null))).Refused());
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_SkippedWithAFind_IsAWrongCall(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var task = await OpenAsync(shop, TaskKind.Skim);

        await Assert.ThrowsAsync<ArgumentException>(() => shop.Get<EndTaskHandler>().HandleAsync(
            new EndTask(task.Id, TaskState.Skipped, "no time", new(FindNames.OilLitres, 2, null)), Some.Operator, isSupervisor: false, Stop));
    }

    // Skimmed once for the plan and for a flag: both end, and the oil is noted once.
    [Theory, EachDatabase]
    public async Task HandleAsync_TwoTasksOfOneWork_NotesTheFindOnce(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await OpenAsync(shop, TaskKind.Skim);
        var outcome = await shop.StoreAsync(Some.ReadingOf(Some.Typed(ParameterCodes.TrampOil, 20)));

        (await EndAsync(shop, Assert.Single(outcome.Made).Id, new(FindNames.OilLitres, 1, null))).Done();

        var done = await shop.ReadAsync(db => db.CareTasks.Where(t => t.State == TaskState.Done).ToListAsync());
        Assert.Equal(2, done.Count);
        Assert.Equal(outcome.Made[0].Id, Assert.Single(done, t => t.Found is not null).Id);
    }

    // Rows that were recorded before the column came keep their images: the record of an old database still proves itself.
    [Theory, EachDatabase]
    public async Task RowImage_NothingFound_LeavesTheColumnOut(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var task = await OpenAsync(shop, TaskKind.Skim);
        var without = await ImageAsync(shop, task.Id);
        (await EndAsync(shop, task.Id, new(FindNames.OilLitres, 1.5m, null))).Done();
        var with = await ImageAsync(shop, task.Id);

        Assert.DoesNotContain("Found", without, StringComparison.Ordinal);
        Assert.Contains("\"Recipe\":null", without, StringComparison.Ordinal);
        Assert.Contains("\"Found\":\"{\\\"what\\\":\\\"oilLitres\\\",\\\"value\\\":1.5,\\\"note\\\":\\\"\\\"}\"", with, StringComparison.Ordinal);

        await RawSql.ExecuteAsync(database, "UPDATE \"CareTasks\" SET \"Found\" = NULL");
        Assert.Equal(VerifyProblem.RowChanged, Assert.Single((await shop.VerifyAsync()).Findings).Problem);
    }

    private static Task<string> ImageAsync(ShopFixture shop, Guid id) => shop.ReadAsync(async db => RowImage.Of(db.Entry(await db.CareTasks.SingleAsync(t => t.Id == id, Stop))));

    private static async Task<CareTask> OpenAsync(ShopFixture shop, TaskKind kind)
    {
        await shop.StepAsync(Some.Step(kind));
        return await shop.ReadAsync(db => db.CareTasks.SingleAsync(t => t.State == TaskState.Open));
    }

    private static Task<Result<EndedTask>> EndAsync(ShopFixture shop, Guid id, TypedFind? found) =>
        shop.Get<EndTaskHandler>().HandleAsync(new EndTask(id, TaskState.Done, Found: found), Some.Operator, isSupervisor: false, Stop);
}
