using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Rules;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Charges;

/// <summary>What is really added: volumes (invariant 10), the adjustment that is done by it, sent twice.</summary>
public sealed class RecordAdditionTests
{
    [Theory, EachDatabase]
    public async Task HandleAsync_AsAdvised_EndsTheAdjustmentAndMovesTheVolume(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var reading = await shop.StoreAsync(Some.Reading(brix: 4.0m, levelMm: 200));
        shop.Clock.Advance(TimeSpan.FromMinutes(20));

        var added = (await shop.AddAsync(Some.Addition(shop.LotId, water: 60, concentrate: 8, at: shop.Now, readingId: reading.ReadingId))).Done();

        Assert.Equal((168.0, true), (added.VolumeLitres, added.IsNew));
        var task = await shop.ReadAsync(db => db.CareTasks.SingleAsync(t => t.Kind == TaskKind.Adjust));
        Assert.Equal((TaskState.Done, Some.Operator.PersonId), (task.State, task.EndedByPersonId));

        // The flag closes only by a reading within limits.
        var test = await shop.ReadAsync(db => db.CareTasks.SingleAsync(t => t.State == TaskState.Open && t.Kind == TaskKind.Test && t.Cause == "limit:concentration"));
        Assert.Equal(new DateTime(2026, 3, 3, 5, 0, 0, DateTimeKind.Utc), test.DueAtUtc);
        Assert.Equal(180, await shop.ReadAsync(db => db.FluidLots.Select(l => l.RemainingLitres).SingleAsync()));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_SameIdTwice_AddsOnceAlsoAfterTheDrain(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var command = Some.Addition(shop.LotId);
        (await shop.AddAsync(command)).Done();
        var before = await shop.FootprintAsync();

        Assert.False((await shop.AddAsync(command)).Done().IsNew);
        Assert.Equal(before, await shop.FootprintAsync());

        (await shop.DrainAsync(Some.Start)).Done();
        Assert.False((await shop.AddAsync(command)).Done().IsNew);
    }

    // Board and tablet both noted the same pour: the second finds it answered.
    [Theory, EachDatabase]
    public async Task HandleAsync_AdjustmentAnsweredAlready_IsNotAddedAgain(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var adjustment = (await shop.StoreAsync(Some.Reading(brix: 4.0m))).Made[0].Id;
        (await shop.AddAsync(Some.Addition(shop.LotId) with { TaskId = adjustment })).Done();
        var before = await shop.FootprintAsync();

        Assert.Equal(new TaskEndedAlready(adjustment, TaskState.Done, Some.Start), (await shop.AddAsync(Some.Addition(shop.LotId) with { TaskId = adjustment })).Refused());
        var unknown = Some.Id();
        Assert.Equal(new TaskNotFound(unknown), (await shop.AddAsync(Some.Addition(shop.LotId) with { TaskId = unknown })).Refused());
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_ParallelPostsOfOneId_DrawOnce(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var other = shop.Another();
        var command = Some.Addition(shop.LotId, concentrate: 3);

        var answers = await Task.WhenAll(Enumerable.Range(0, 20).Select(n => Task.Run(() => (n % 2 == 0 ? shop : other).AddAsync(command))));

        Assert.Equal(1, answers.Count(a => a.Done().IsNew));
        Assert.Equal(185, await shop.ReadAsync(db => db.FluidLots.Select(l => l.RemainingLitres).SingleAsync()));
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_SameIdOtherContent_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.SumpAsync(Some.Sump(Some.Id(), shop.AreaId, "S-08", "M-08"));
        var command = Some.Addition(shop.LotId, removed: 5);
        var dry = Some.Addition(shop.LotId, at: Some.Start.AddHours(-1));
        (await shop.AddAsync(command)).Done();
        (await shop.AddAsync(dry)).Done();
        var before = await shop.FootprintAsync();

        Assert.Equal(new OtherContentForId(command.Id), (await shop.AddAsync(command with { SumpTag = "S-08" })).Refused());
        Assert.Equal(new OtherContentForId(command.Id), (await shop.AddAsync(command with { WaterLitres = 11 })).Refused());
        Assert.Equal(new OtherContentForId(command.Id), (await shop.AddAsync(command with { ConcentrateLitres = 2 })).Refused());
        Assert.Equal(new OtherContentForId(command.Id), (await shop.AddAsync(command with { RemovedLitres = 0 })).Refused());
        Assert.Equal(new OtherContentForId(command.Id), (await shop.AddAsync(command with { LotId = Some.Id() })).Refused());
        Assert.Equal(new OtherContentForId(command.Id), (await shop.AddAsync(command with { ReadingId = Some.Id() })).Refused());
        Assert.Equal(new OtherContentForId(dry.Id), (await shop.AddAsync(dry with { RemovedLitres = 5 })).Refused());
        Assert.False((await shop.AddAsync(command with { WaterLitres = 10.00m, AddedAtUtc = Some.Start.AddMinutes(2) })).Done().IsNew);
        Assert.Equal(before, await shop.FootprintAsync());
    }

    // The sump was topped up to the full mark, read there, and only then was the addition entered: it did not go over the brim.
    [Theory, EachDatabase]
    public async Task HandleAsync_EnteredAfterALaterLevel_IsHeldAgainstTheVolumeThen(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(levelMm: 140, takenAt: Some.Start.AddHours(-2)));
        await shop.StoreAsync(Some.Reading(levelMm: 340, takenAt: Some.Start));
        var late = Some.Addition(shop.LotId, water: 95, concentrate: 5, at: Some.Start.AddMinutes(-5));

        Assert.Equal(new FieldError("waterLitres", FieldProblem.OverTheBrim, 126, 0, 125, "L"), (await shop.AddAsync(late with { WaterLitres = 126 })).Field());
        Assert.Equal(new FieldError("removedLitres", FieldProblem.OutOfRange, 71, 0, 70, "L"), (await shop.AddAsync(late with { RemovedLitres = 71 })).Field());
        Assert.Equal(170.0, (await shop.AddAsync(late)).Done().VolumeLitres);
        Assert.Equal(new FieldError("waterLitres", FieldProblem.OverTheBrim, 30, 0, 29, "L"), (await shop.AddAsync(Some.Addition(shop.LotId, water: 30, concentrate: 1, at: Some.Start))).Field());
        Assert.Equal(new FieldError("concentrateLitres", FieldProblem.OverTheBrim, 31, 0, 30, "L"), (await shop.AddAsync(Some.Addition(shop.LotId, water: 0, concentrate: 31, at: Some.Start))).Field());
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // 150 L at 300 mm of 200 L to the brim.
    [Theory]
    [EachDatabase(49.0, 1.0, 0.0, null)]
    [EachDatabase(49.1, 1.0, 0.0, "waterLitres")]
    [EachDatabase(59.0, 1.0, 10.0, null)]
    [EachDatabase(1.0, 0.0, 150.1, "removedLitres")]
    [EachDatabase(0.0, 0.0, 0.0, "waterLitres")]
    [EachDatabase(-1.0, 0.0, 0.0, "waterLitres")]
    [EachDatabase(0.0, -1.0, 0.0, "concentrateLitres")]
    [EachDatabase(0.0, 0.0, -1.0, "removedLitres")]
    [EachDatabase(100001.0, 0.0, 0.0, "waterLitres")]
    public async Task HandleAsync_VolumeAtItsEnds_IsRefusedBeyond(TestDatabase database, double water, double concentrate, double removed, string? field)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(levelMm: 300));
        var before = await shop.FootprintAsync();

        var answer = await shop.AddAsync(Some.Addition(shop.LotId, (decimal)water, (decimal)concentrate, (decimal)removed, Some.Start.AddMinutes(1)));

        if (field is null)
        {
            Assert.True(answer.Done().IsNew);
            Assert.Empty((await shop.VerifyAsync()).Findings);
        }
        else
        {
            Assert.Equal(field, answer.Field().Field);
            Assert.Equal(before, await shop.FootprintAsync());
        }
    }

    // 150 L at 300 mm, 170 at the full mark. A program is not asked, and neither is who has answered: what was unusual is kept of both.
    [Theory]
    [EachDatabase(10, 1, UnusualAddition.None)]
    [EachDatabase(0, 1, UnusualAddition.Neat)]
    [EachDatabase(30, 0, UnusualAddition.OverTheMark)]
    [EachDatabase(0, 25, UnusualAddition.Neat | UnusualAddition.OverTheMark | UnusualAddition.TooStrong)]
    [EachDatabase(2, 8, UnusualAddition.TooStrong)]
    public async Task HandleAsync_UnusualAndNotedAllTheSame_KeepsWhatWasUnusual(TestDatabase database, int water, int concentrate, UnusualAddition unusual)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(levelMm: 300));

        (await shop.AddAsync(Some.Addition(shop.LotId, water, concentrate, at: Some.Start.AddMinutes(1)))).Done();

        Assert.Equal(unusual, await shop.ReadAsync(db => db.Additions.OrderByDescending(a => a.AddedAtUtc).Select(a => a.Unusual).FirstAsync(TestContext.Current.CancellationToken)) ?? UnusualAddition.None);
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_TimeOutsideTheCharge_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        Assert.Equal(new FieldError("addedAt", FieldProblem.InTheFuture), (await shop.AddAsync(Some.Addition(shop.LotId, at: Some.Start.AddMinutes(6)))).Field());
        Assert.Equal(new FieldError("addedAt", FieldProblem.BeforeTheFill, EarliestUtc: Some.Start.AddDays(-10)), (await shop.AddAsync(Some.Addition(shop.LotId, at: Some.Start.AddDays(-11)))).Field());
        Assert.Equal(new SumpNotFound("S-99"), (await shop.AddAsync(Some.Addition(shop.LotId, tag: "S-99"))).Refused());
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_UnknownReadingOrEndlessReason_IsRefusedAtItsField(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var before = await shop.FootprintAsync();

        Assert.Equal(new FieldError("reading", FieldProblem.UnknownChoice), (await shop.AddAsync(Some.Addition(shop.LotId, readingId: Some.Id()))).Field());
        Assert.Equal("overrideReason", (await shop.AddAsync(Some.Addition(shop.LotId, overrideReason: new string('x', 501)), isSupervisor: true)).Field().Field);
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_AdditionBeforeTheLatestLevel_DoesNotMoveTheVolume(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(levelMm: 300));

        (await shop.AddAsync(Some.Addition(shop.LotId, water: 20, concentrate: 1, at: Some.Start.AddHours(-1)))).Done();

        Assert.Equal(150.0, await shop.ReadAsync(db => db.Standings.Select(s => s.VolumeLitres).SingleAsync()));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_RecipeOfAnOlderReading_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var old = await shop.StoreAsync(Some.Reading(brix: 4.0m, levelMm: 200));
        shop.Clock.Advance(TimeSpan.FromMinutes(20));
        var latest = await shop.StoreAsync(Some.Reading(takenAt: shop.Now, brix: 8.0m, levelMm: 300));
        var before = await shop.FootprintAsync();

        Assert.Equal(new RecipeOutOfDate(), (await shop.AddAsync(Recipe(shop, old.ReadingId))).Refused());
        Assert.Equal(new RecipeOutOfDate(), (await shop.AddAsync(Recipe(shop, null))).Refused());
        Assert.Equal(before, await shop.FootprintAsync());

        Assert.True((await shop.AddAsync(Recipe(shop, latest.ReadingId))).Done().IsNew);
        Assert.True((await shop.AddAsync(Recipe(shop, old.ReadingId) with { AsRecipe = false })).Done().IsNew);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_RecipeFromManyTabletsAtOnce_IsPouredOnce(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var other = shop.Another();
        var reading = await shop.StoreAsync(Some.Reading(brix: 4.0m, levelMm: 200));

        var before = await shop.CountAsync<Addition>();

        var answers = await Task.WhenAll(Enumerable.Range(0, 10).Select(n => Task.Run(() => (n % 2 == 0 ? shop : other).AddAsync(Recipe(shop, reading.ReadingId)))));

        Assert.Equal(1, answers.Count(a => a.Error is null));
        Assert.All(answers.Where(a => a.Error is not null), a => Assert.Equal(new RecipeFollowedAlready(), a.Refused()));
        Assert.Equal(before + 1, await shop.CountAsync<Addition>());
    }

    private static RecordAddition Recipe(ShopFixture shop, Guid? readingId) =>
        Some.Addition(shop.LotId, water: 6, concentrate: 1, at: shop.Now, readingId: readingId) with { AsRecipe = true };
}
