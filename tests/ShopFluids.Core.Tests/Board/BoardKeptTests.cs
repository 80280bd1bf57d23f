using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Board;
using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Shutdowns;
using ShopFluids.Core.Database;
using ShopFluids.Core.People;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Tests.Walks;
using ShopFluids.Core.Time;
using ShopFluids.Rules;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Board;

/// <summary>The board keeps what it read and made; whatever is done and however time goes by, it must tell the same as one that reads everything.</summary>
public sealed class BoardKeptTests
{
    private const int Steps = 250;

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Theory]
    [EachDatabase(1)]
    [EachDatabase(2)]
    [EachDatabase(3)]
    public async Task RunAsync_AfterAnyActAndAnyTime_TellsTheSameAsABoardReadAnew(TestDatabase database, int seed)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var walk = await ShopWalk.OpenAsync(shop, seed);
        var kept = Anew(shop);
        var told = new HashSet<string>(StringComparer.Ordinal);
        for (var step = 0; step < Steps; step++)
        {
            var act = await walk.ActAsync();
            foreach (var filter in new[] { new BoardFilter(), new BoardFilter(Kind: TaskKind.Test) })
            {
                var ours = Told(await kept.RunAsync(filter, Token));
                var anew = Told(await Anew(shop).RunAsync(filter, Token));
                Assert.True(anew == ours, $"{step}: {act} at {shop.Now:u}: {Difference(anew, ours)}");
                told.Add(ours);
            }
        }

        // A walk on which little happens would show little.
        Assert.True(walk.Done > Steps / 4, $"only {walk.Done} acts");
        Assert.True(told.Count > Steps / 4, $"only {told.Count} boards");
    }

    // What was changed last is kept last, in a database it stands anywhere: the plan's test serves one of them all the same.
    [Theory, EachDatabase]
    public async Task RunAsync_TwoShutdownsAskForTheTestOfThePlan_WhateverWasChangedLast(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test, anchor: new(2026, 3, 9)));
        foreach (var day in new DateOnly[] { new(2026, 3, 3), new(2026, 3, 5) })
        {
            (await shop.Get<PlanShutdownHandler>().HandleAsync(new PlanShutdown(Some.Id(), null, day, day, "Floor"), Some.Supervisor, Token)).Done();
        }

        var person = Some.Id();
        (await shop.Get<MakeAccountHandler>().HandleAsync(new MakeAccount(person, "op1", "Op One", "ten signs and more", [Roles.Operator], "light"), Some.Supervisor, Token)).Done();

        // All of it is late, hence one as near as the other.
        shop.Clock.Advance(TimeSpan.FromDays(9));
        var asked = await shop.ReadAsync(db => db.CareTasks.Where(t => t.Kind == TaskKind.Test && t.State == TaskState.Open && t.StepId == null).Select(t => t.Id).ToListAsync());
        Assert.Equal(4, asked.Count);
        var kept = Anew(shop);
        await kept.RunAsync(new BoardFilter(), Token);
        foreach (var id in asked)
        {
            (await shop.Get<AssignTaskHandler>().HandleAsync(new AssignTask(id, person), Some.Supervisor, Token)).Done();

            Assert.Equal(Told(await Anew(shop).RunAsync(new BoardFilter(), Token)), Told(await kept.RunAsync(new BoardFilter(), Token)));
        }
    }

    private static BoardQuery Anew(ShopFixture shop) => new(shop.Get<ShopDatabase>(), shop.Get<SetupCache>(), shop.Get<ShopClock>());

    // Where they part, and what stands about there.
    private static string Difference(string anew, string ours)
    {
        var at = Math.Max(0, anew.Zip(ours).TakeWhile(c => c.First == c.Second).Count() - 400);
        return $"anew ...{anew.AsSpan(at, Math.Min(700, anew.Length - at))}... kept ...{ours.AsSpan(at, Math.Min(700, ours.Length - at))}...";
    }

    private static string Told(ShopBoard board) => JsonSerializer.Serialize(new { board.Days, board.NextClosure, board.Counts, board.Rows, board.Quiet, board.People, board.ShopFlags });
}
