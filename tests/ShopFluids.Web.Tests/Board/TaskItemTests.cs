using Bunit;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Board;
using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Finds;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Findings;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Board.Work;
using ShopFluids.Web.Tests.Layout;
using Xunit;

namespace ShopFluids.Web.Tests.Board;

/// <summary>Ticking work off at the desk: what was poured goes into the record with it.</summary>
public sealed class TaskItemTests
{
    [Fact]
    public async Task AddedAsAbove_Adjustment_RecordsTheRecipeAndEndsTheTask()
    {
        await using var desk = await DeskContext.OpenAsync();
        var outcome = await desk.Shop.StoreAsync(Some.Reading(brix: 4.0m, levelMm: 250));
        var item = await ItemAsync(desk, TaskKind.Adjust);
        Assert.DoesNotContain(item.FindAll("button"), b => b.TextContent == Texts.Board_Done);
        Assert.Contains("L-1", item.Find(".adjust").TextContent, StringComparison.Ordinal);

        await Button(item, Texts.Saved_AddedAsAbove).ClickAsync(new());

        var added = await desk.Shop.ReadAsync(db => db.Additions.SingleAsync(a => a.ReadingId != null));
        Assert.NotNull(outcome.Recipe);
        Assert.Equal((outcome.Recipe.WaterLitres, outcome.Recipe.ConcentrateLitres), ((double)added.WaterLitres, (double)added.ConcentrateLitres));
        Assert.Equal(new[] { desk.Shop.LotId, outcome.ReadingId, Some.Supervisor.PersonId }, [added.LotId, added.ReadingId, added.PersonId]);
        Assert.Equal(TaskState.Done, await StateAsync(desk, outcome.Made[0].Id));
    }

    [Fact]
    public async Task AddedAsAbove_AnsweredMeanwhile_IsRefusedAndNothingIsAddedTwice()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StoreAsync(Some.Reading(brix: 4.0m, levelMm: 250));
        var item = await ItemAsync(desk, TaskKind.Adjust);
        (await desk.Shop.AddAsync(Some.Addition(desk.Shop.LotId))).Done();
        var before = await desk.Shop.FootprintAsync();

        await Button(item, Texts.Saved_AddedAsAbove).ClickAsync(new());

        Assert.Equal(Texts.Error_TaskEnded, item.Find("[role=alert]").TextContent);
        Assert.Equal(before, await desk.Shop.FootprintAsync());
    }

    [Fact]
    public async Task AddedOther_Adjustment_BeginsWithTheRecipeAsksAboutWhatIsUnusualAndRecordsWhatIsTyped()
    {
        await using var desk = await DeskContext.OpenAsync();
        var outcome = await desk.Shop.StoreAsync(Some.Reading(brix: 4.0m, levelMm: 250));
        var item = await ItemAsync(desk, TaskKind.Adjust);
        await Button(item, Texts.Saved_AddedOther).ClickAsync(new());
        var boxes = item.FindAll(".box input");
        Assert.NotNull(outcome.Recipe);
        Assert.Equal(outcome.Recipe.WaterLitres.ToString("0.0", System.Globalization.CultureInfo.InvariantCulture), boxes[0].GetAttribute("value"));
        Assert.Equal(desk.Shop.LotId.ToString(), item.Find(".adjust select").GetAttribute("value"));

        await boxes[0].ChangeAsync(new() { Value = "12,5" });
        await item.FindAll(".box input")[1].ChangeAsync(new() { Value = "3" });
        await item.FindAll(".box input")[2].ChangeAsync(new() { Value = "" });
        await Button(item, Texts.Saved_NoteAddition).ClickAsync(new());
        Assert.Contains("nothing is noted as taken out", item.Find(".adjust > .fault").TextContent, StringComparison.Ordinal);
        Assert.Equal(0, await desk.Shop.ReadAsync(db => db.Additions.CountAsync(a => a.ReadingId != null)));

        await Button(item, Texts.Saved_AskKeep).ClickAsync(new());

        var added = await desk.Shop.ReadAsync(db => db.Additions.SingleAsync(a => a.ReadingId != null));
        Assert.Equal((12.5m, 3m), (added.WaterLitres, added.ConcentrateLitres));
        Assert.Equal(TaskState.Done, await StateAsync(desk, outcome.Made[0].Id));
    }

    [Theory]
    [InlineData("much", "much")]
    [InlineData("500", "500")]
    [InlineData("-1", "-1")]
    public async Task AddedOther_ImpossibleWater_SaysSoAtItsBoxAndKeepsWhatWasTyped(string typed, string kept)
    {
        await using var desk = await DeskContext.OpenAsync();
        var outcome = await desk.Shop.StoreAsync(Some.Reading(brix: 4.0m, levelMm: 250));
        var item = await ItemAsync(desk, TaskKind.Adjust);
        await Button(item, Texts.Saved_AddedOther).ClickAsync(new());

        await item.FindAll(".box input")[0].ChangeAsync(new() { Value = typed });
        await Button(item, Texts.Saved_NoteAddition).ClickAsync(new());

        var box = item.FindAll(".box input")[0];
        Assert.Equal(("true", kept), (box.GetAttribute("aria-invalid"), box.GetAttribute("value")));
        Assert.NotEmpty(item.Find($"#{box.GetAttribute("aria-describedby")}").TextContent);
        Assert.Equal(TaskState.Open, await StateAsync(desk, outcome.Made[0].Id));
    }

    [Fact]
    public async Task NothingAdded_Adjustment_AsksWhyAndSkips()
    {
        await using var desk = await DeskContext.OpenAsync();
        var outcome = await desk.Shop.StoreAsync(Some.Reading(brix: 4.0m));
        var item = await ItemAsync(desk, TaskKind.Adjust);

        await Button(item, Texts.Board_NothingAdded).ClickAsync(new());
        await item.Find(".reason .btn.pri").ClickAsync(new());
        Assert.Equal(Texts.Board_ReasonMissing, item.Find("[role=alert]").TextContent);

        await item.Find("textarea").ChangeAsync(new() { Value = "the next shift tops up" });
        await item.Find(".reason .btn.pri").ClickAsync(new());

        var task = await desk.Shop.ReadAsync(db => db.CareTasks.SingleAsync(t => t.Id == outcome.Made[0].Id));
        Assert.Equal((TaskState.Skipped, "the next shift tops up"), (task.State, task.EndReason));
    }

    // Without a level there is no recipe: what was poured is asked for all the same, and nothing is ticked off in one press.
    [Fact]
    public async Task Adjustment_WithoutARecipe_AsksWhatWasAdded()
    {
        await using var desk = await DeskContext.OpenAsync();
        var outcome = await desk.Shop.StoreAsync(Some.ReadingOf(Some.Typed(ParameterCodes.Concentration, 4.0m)));
        Assert.Null(outcome.Recipe);
        var item = await ItemAsync(desk, TaskKind.Adjust);
        Assert.DoesNotContain(item.FindAll("button"), b => b.TextContent == Texts.Board_Done || b.TextContent == Texts.Saved_AddedAsAbove);
        Assert.Equal("enter/S-07", item.Find(".adjust a").GetAttribute("href"));

        await Button(item, Texts.Board_SayWhatWasAdded).ClickAsync(new());
        Assert.Equal("", item.FindAll(".box input")[0].GetAttribute("value"));
        await item.FindAll(".box input")[0].ChangeAsync(new() { Value = "4" });
        await item.FindAll(".box input")[1].ChangeAsync(new() { Value = "1" });
        await item.Find(".adjust select").ChangeAsync(new() { Value = desk.Shop.LotId.ToString() });
        await Button(item, Texts.Saved_NoteAddition).ClickAsync(new());

        var added = await desk.Shop.ReadAsync(db => db.Additions.SingleAsync(a => a.ReadingId != null));
        Assert.Equal((4m, 1m, outcome.ReadingId), (added.WaterLitres, added.ConcentrateLitres, added.ReadingId));
        Assert.Equal(TaskState.Done, await StateAsync(desk, outcome.Made.Single(t => t.Kind == TaskKind.Adjust).Id));
    }

    [Fact]
    public async Task Test_Open_LeadsToItsReadingAndIsNotTickedOff()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StepAsync(Some.Step(TaskKind.Test));

        var item = await ItemAsync(desk, TaskKind.Test);

        Assert.DoesNotContain(item.FindAll("button"), b => b.TextContent == Texts.Board_Done);
        Assert.Equal("enter/S-07", item.Find(".acts a").GetAttribute("href"));
    }

    [Fact]
    public async Task Dose_Open_LeadsToNotingItAndIsNotTickedOff()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StepAsync(Some.Step(TaskKind.Dose));

        var item = await ItemAsync(desk, TaskKind.Dose);

        Assert.DoesNotContain(item.FindAll("button"), b => b.TextContent == Texts.Board_Done);
        Assert.Equal("sumps/S-07/dose", item.Find(".acts a").GetAttribute("href"));
    }

    [Fact]
    public async Task Done_OtherWork_IsTickedOffAsBefore()
    {
        await using var desk = await DeskContext.OpenAsync();
        var outcome = await desk.Shop.StoreAsync(Some.ReadingOf(Some.Typed(ParameterCodes.TrampOil, 20)));
        var item = await ItemAsync(desk, TaskKind.Skim);
        Assert.Empty(item.FindAll(".adjust"));
        Assert.Contains("asked for today", item.Find(".dim").TextContent, StringComparison.Ordinal);

        await Button(item, Texts.Board_Done).ClickAsync(new());

        Assert.Equal(TaskState.Done, await StateAsync(desk, outcome.Made[0].Id));
    }

    // No step of the plan tells how: the kind of work does, and what to mind stands with it.
    [Fact]
    public async Task Drain_ThatAFlagAskedFor_TellsHowAndWhatToMind()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StoreAsync(Some.Reading(ph: 8.4m) with { Measurements = [.. Some.Reading(ph: 8.4m).Measurements, Some.Typed(ParameterCodes.Odour, 3)] });

        var how = (await ItemAsync(desk, TaskKind.DrainClean)).Find("details.needs");

        Assert.Equal(Texts.Task_DrainCleanHow, how.QuerySelector("p")?.TextContent);
        Assert.Contains(Sentences.Caution(Caution.LockOut, null), how.QuerySelectorAll("li").Select(l => l.TextContent));
        Assert.Equal(Texts.Caution_Deference, how.QuerySelectorAll("li")[^1].TextContent);
    }

    // A look for the cause has no cautions, and still a way to do it; planned work says it by its own steps and minutes.
    [Fact]
    public async Task How_LookForAFlagOrPlannedCirculation_IsSaidForTheFlagOnly()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StepAsync(Some.Step(TaskKind.Circulate));
        await desk.Shop.StoreAsync(Some.Reading(brix: 8.8m, levelMm: 260, takenAt: desk.Shop.Now.AddDays(-5)));
        await desk.Shop.StoreAsync(Some.Reading(brix: 7.2m, levelMm: 320));

        Assert.Equal(Texts.Task_InspectHow, (await ItemAsync(desk, TaskKind.Inspect)).Find("details.needs p").TextContent);
        Assert.DoesNotContain(Texts.Task_CirculateHow, (await ItemAsync(desk, TaskKind.Circulate)).Markup, StringComparison.Ordinal);
    }

    [Fact]
    public async Task WhatWasFound_Skim_RefusesAtTheBoxAndThenEndsWithIt()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StepAsync(Some.Step(TaskKind.Skim));
        var item = await ItemAsync(desk, TaskKind.Skim);
        await Button(item, Texts.Found_Ask).ClickAsync(new());
        Assert.Single(item.FindAll("button"), b => b.TextContent is var text && (text == Texts.Board_Done || text == Texts.Found_Done));
        await item.Find(".box input").ChangeAsync(new() { Value = "1001" });
        await item.Find("textarea").ChangeAsync(new() { Value = "belt worn" });
        await item.FindAll(".reason .acts button")[0].ClickAsync(new());
        Assert.Equal("Oil taken off 1,001 L is outside the accepted range of 0 L to 200 L.", item.Find("[role=alert]").TextContent);

        await item.Find(".box input").ChangeAsync(new() { Value = "2,5" });
        await item.FindAll(".reason .acts button")[0].ClickAsync(new());

        var done = await desk.Shop.ReadAsync(db => db.CareTasks.SingleAsync(t => t.State == TaskState.Done));
        Assert.Equal(new WorkFind(FindNames.OilLitres, 2.5m, "belt worn"), done.Found);
    }

    [Fact]
    public async Task WhatWasFound_FilterAndTest_AsksForTheGradeAndNotForATest()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StepAsync(Some.Step(TaskKind.ChangeFilter));
        await desk.Shop.StepAsync(Some.Step(TaskKind.Test));
        Assert.DoesNotContain((await ItemAsync(desk, TaskKind.Test)).FindAll("button"), b => b.TextContent == Texts.Found_Ask);
        var item = await ItemAsync(desk, TaskKind.ChangeFilter);
        await Button(item, Texts.Found_Ask).ClickAsync(new());

        await item.Find(".reason select").ChangeAsync(new() { Value = "2" });
        await item.FindAll(".reason .acts button")[0].ClickAsync(new());

        var done = await desk.Shop.ReadAsync(db => db.CareTasks.SingleAsync(t => t.State == TaskState.Done));
        Assert.Equal(new WorkFind(FindNames.FilterState, (decimal)FilterState.Full, ""), done.Found);
    }

    private static async Task<IRenderedComponent<TaskItem>> ItemAsync(DeskContext desk, TaskKind kind)
    {
        var board = await desk.Services.GetRequiredService<BoardQuery>().RunAsync(new(), Xunit.TestContext.Current.CancellationToken);
        var words = await desk.Services.GetRequiredService<DeskSession>().WordsAsync(board.Setup);
        var item = desk.Render<TaskItem>(p => p
            .Add(t => t.Task, board.Rows[0].Tasks.First(t => t.Kind == kind)).Add(t => t.SumpTag, "S-07").Add(t => t.People, board.People).Add(t => t.Words, words)
            .Add(t => t.NowUtc, board.AtUtc).Add(t => t.MayAct, true).Add(t => t.Changed, () => { }));
        if (kind == TaskKind.Adjust)
        {
            item.WaitForElement(".adjust button", TimeSpan.FromSeconds(20));
        }

        return item;
    }

    private static AngleSharp.Dom.IElement Button(IRenderedComponent<TaskItem> item, string text) => item.FindAll("button").Single(b => b.TextContent == text);

    private static Task<TaskState> StateAsync(DeskContext desk, Guid id) => desk.Shop.ReadAsync(db => db.CareTasks.Where(t => t.Id == id).Select(t => t.State).SingleAsync());
}
