using System.Text.RegularExpressions;
using Microsoft.Playwright;
using ShopFluids.Core.Wording;
using ShopFluids.EndToEnd.Tests.Browser;
using ShopFluids.EndToEnd.Tests.Server;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.Entering;

/// <summary>The main job from end to end: a reading becomes a verdict, a recipe, a board row and a printed line.</summary>
public abstract partial class WholePathTests(DemoServer demo, Chromium chromium)
{
    private const string Marker = "boardOpenedBefore";

    [Fact]
    public async Task Save_AtASumpOfTheRound_GivesVerdictRecipeBoardRowAndPrintedLine()
    {
        await using var board = await demo.VisitAsync(chromium, Texts.Role_Supervisor, 1440, 900);
        await board.GoAsync("/board");
        await board.Page.EvaluateAsync("name => { window[name] = true; }", Marker);
        var before = await WorkAsync();

        await using var tablet = await demo.VisitAsync(chromium, Texts.Role_Operator);
        var tag = await PickSumpAsync(tablet);
        var note = $"Swarf at the intake of {tag}";
        await SaveAsync(tablet, tag, note);
        await ExpectVerdictAndRecipeAsync(tablet);

        // The board was open all the time, and has not been loaded again.
        var made = (await WorkAsync()).Where(w => w.Sump == tag && before.TrueForAll(b => b.Id != w.Id)).Select(w => w.Text).ToList();
        Assert.NotEmpty(made);
        var row = board.Page.Locator("table.b tbody tr", new() { Has = board.Page.GetByRole(AriaRole.Link, new() { Name = tag, Exact = true }) });
        await Assertions.Expect(row).ToContainTextAsync(new Regex(string.Join('|', made.Select(Regex.Escape)), RegexOptions.None, TimeSpan.FromSeconds(1)));
        Assert.True(await board.Page.EvaluateAsync<bool>("name => window[name] === true", Marker));

        await ExpectOnHistorySheetAsync(board, tag, note);
        tablet.ExpectNoFaults();
        board.ExpectNoFaults();
    }

    [Fact]
    public async Task Save_WithoutScript_GivesVerdictAndRecipe()
    {
        await using var tablet = await demo.VisitAsync(chromium, Texts.Role_Operator, hasScript: false);
        var tag = await PickSumpAsync(tablet);
        await SaveAsync(tablet, tag, note: "");
        await ExpectVerdictAndRecipeAsync(tablet);
    }

    /// <summary>The first sump of the round whose pH nobody has complained about yet, so that what is saved makes news.</summary>
    private async Task<string> PickSumpAsync(Visit tablet)
    {
        await tablet.GoAsync("/");
        Assert.EndsWith("/round", tablet.Page.Url, StringComparison.Ordinal);
        var flagged = (await demo.Api.AllAsync("/api/v1/flags?state=open&limit=200")).Where(f => f.GetProperty("parameter").GetString() == "ph").Select(f => f.GetProperty("sump").GetString()).ToHashSet();
        var tag = (await tablet.Page.Locator("a.stop .tag1").AllInnerTextsAsync()).Select(t => t.Trim()).First(t => !flagged.Contains(t));
        await tablet.Page.Locator("a.stop").Filter(new() { Has = tablet.Page.GetByText(tag, new() { Exact = true }) }).ClickAsync();
        await tablet.Page.WaitForURLAsync($"**/enter/{tag}");
        return tag;
    }

    // A comma as on many keyboards, far too weak, a pH that has fallen but not so far that the fluid must go, and a level with room above it.
    private static async Task SaveAsync(Visit tablet, string tag, string note)
    {
        var entry = new EntryPage(tablet);
        await Assertions.Expect(tablet.Page.Locator("h1")).ToHaveTextAsync(tag);
        await entry.TypeAsync("2,0", "8.6", "250", note);
        await entry.SaveForSureAsync();
    }

    private static async Task ExpectVerdictAndRecipeAsync(Visit tablet)
    {
        await Assertions.Expect(tablet.Page.Locator("section.verdict.act")).ToBeVisibleAsync();
        await Assertions.Expect(tablet.Page.Locator("dl.three")).ToContainTextAsync("8.6");
        var recipe = tablet.Page.GetByRole(AriaRole.Region, new() { Name = Texts.Saved_Recipe });
        await Assertions.Expect(recipe.Locator(".amt .n").First).ToHaveTextAsync(Litres());

        // What was poured is noted with one press, and the page says when.
        await recipe.GetByRole(AriaRole.Button, new() { Name = Texts.Saved_AddedAsAbove }).ClickAsync();
        await tablet.SettleAsync();
        await Assertions.Expect(recipe.Locator(".say.done")).ToHaveCountAsync(1);
        await Assertions.Expect(recipe.GetByRole(AriaRole.Button, new() { Name = Texts.Saved_AddedAsAbove })).ToHaveCountAsync(0);
    }

    private static async Task ExpectOnHistorySheetAsync(Visit desk, string tag, string note)
    {
        var answer = await desk.Page.Context.APIRequest.GetAsync($"/sheets/sumps/{tag}/history.pdf");
        Assert.Equal(200, answer.Status);
        Assert.Equal("application/pdf", answer.Headers["content-type"]);
        var words = PdfText.Of(await answer.BodyAsync());
        Assert.Contains(note, words, StringComparison.Ordinal);
        Assert.Contains(tag, words, StringComparison.Ordinal);
    }

    /// <summary>Open tasks and flags of all sumps, in the words of the board.</summary>
    private async Task<List<(string Id, string Sump, string Text)>> WorkAsync()
    {
        var work = new List<(string, string, string)>();
        foreach (var list in new[] { "/api/v1/tasks?state=open&limit=200", "/api/v1/flags?state=open&limit=200" })
        {
            work.AddRange((await demo.Api.AllAsync(list)).Select(i => (i.GetProperty("id").GetString()!, i.GetProperty("sump").GetString()!, i.GetProperty("text").GetString()!)));
        }

        return work;
    }

    [GeneratedRegex(@"^\d+(?:\.\d+)?\s*L$", RegexOptions.None, 1000)]
    private static partial Regex Litres();
}

[Collection(SqliteDemoTests.Name)]
public sealed class WholePathOnSqliteTests(SqliteDemo demo, Chromium chromium) : WholePathTests(demo, chromium);

[Collection(PostgresDemoTests.Name)]
public sealed class WholePathOnPostgresTests(PostgresDemo demo, Chromium chromium) : WholePathTests(demo, chromium);
