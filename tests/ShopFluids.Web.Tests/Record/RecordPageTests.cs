using Bunit;
using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Finds;
using ShopFluids.Core.Record.Trail;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Limit;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Pages.Record;
using ShopFluids.Web.Tests.Layout;
using Xunit;

namespace ShopFluids.Web.Tests.Record;

public sealed class RecordPageTests
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    [Fact]
    public async Task Render_StoredReading_TellsWhoWhenWhatInWords()
    {
        await using var desk = await OpenAsync();
        await desk.Shop.StoreAsync(Some.Reading(ph: 9.1m, note: "smells"));

        var row = Page(desk).FindAll("table.trail tbody tr")[0];

        Assert.Contains(Texts.RecordAct_ReadingStored, row.TextContent, StringComparison.Ordinal);
        // Of this shop nobody has an account: then the id is all that there is.
        Assert.Contains(Some.Operator.PersonId.ToString()!, row.TextContent, StringComparison.Ordinal);
        Assert.Equal("sumps/S-07", row.QuerySelector("a")?.GetAttribute("href"));
        var ph = row.QuerySelectorAll(".trailrow").Single(r => r.QuerySelector("h3")?.TextContent.Contains(Texts.Parameter_Ph, StringComparison.Ordinal) == true);
        Assert.Contains("9.1", ph.TextContent, StringComparison.Ordinal);
        Assert.Contains(Texts.Verdict_InRange, ph.TextContent, StringComparison.Ordinal);
        Assert.Contains("smells", row.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Render_ChangedRow_StrikesWhatWas()
    {
        await using var desk = await OpenAsync();
        (await desk.Shop.AddAsync(Some.Addition(desk.Shop.LotId))).Done();

        var row = Page(desk).FindAll("table.trail tbody tr")[0];

        var lot = row.QuerySelectorAll(".trailrow").Single(r => r.QuerySelector("s") is not null && r.TextContent.Contains(Texts.RecordColumn_RemainingLitres, StringComparison.Ordinal));
        Assert.NotEqual(lot.QuerySelector("s")?.TextContent, lot.QuerySelector("dd span:last-child")?.TextContent);
    }

    // 150 mm stand 75 L in it: 95 L under its full mark.
    [Fact]
    public async Task Render_TooWeakAndTooLow_TellsFindingCauseAndRecipeInWords()
    {
        await using var desk = await OpenAsync();
        await desk.Shop.StoreAsync(Some.Reading(brix: 4.0m, levelMm: 150));

        var row = Page(desk).FindAll("table.trail tbody tr")[0];

        Assert.Equal("Concentration 4.0 % is under the action limit of 5.0 %.", Cell(row, "flag Concentration", Texts.RecordColumn_Numbers));
        Assert.Equal("Concentration", Cell(row, "flag Concentration", Texts.RecordColumn_Parameter));
        Assert.Equal("the flag on Concentration", Cell(row, "Adjust", Texts.RecordColumn_Cause));
        Assert.Matches("^[0-9.]+ L water with [0-9.]+ L concentrate$", Cell(row, "Adjust", Texts.RecordColumn_Recipe));
        Assert.StartsWith("Concentration 4.0 %: Action, low; pH 9.0: In range; Level 150 mm:", Cell(row, "reading", Texts.RecordColumn_Outcome), StringComparison.Ordinal);
        Assert.DoesNotContain("{", row.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Render_WorkDoneWithAFind_TellsWhichWorkAndWhatWasFound()
    {
        await using var desk = await OpenAsync();
        await desk.Shop.StepAsync(Some.Step(TaskKind.Skim));
        var skim = await desk.Shop.ReadAsync(db => Task.FromResult(db.CareTasks.Single(t => t.Kind == TaskKind.Skim).Id));
        (await desk.Shop.Get<EndTaskHandler>().HandleAsync(new EndTask(skim, TaskState.Done, Found: new(FindNames.OilLitres, 1.5m, "belt worn")), Some.Operator, isSupervisor: false, Xunit.TestContext.Current.CancellationToken)).Done();

        var row = Page(desk).FindAll("table.trail tbody tr")[0];

        var done = row.QuerySelectorAll(".trailrow")[0];
        Assert.Equal("task Skim the tramp oil, changed", done.QuerySelector("h3")?.TextContent);
        Assert.Equal("nothing then 1.5 L of oil taken off; belt worn", Cell(row, "changed", Texts.RecordColumn_Found));
        Assert.Equal("the care plan", Cell(row, "new", Texts.RecordColumn_Cause));
    }

    // Whatever a row keeps as a document is told without its braces.
    [Fact]
    public async Task Render_AllOfABusyShop_ShowsNoDocumentAsItIsKept()
    {
        await using var desk = await OpenAsync();

        Assert.All(Page(desk).FindAll(".trailrow dd"), value => Assert.DoesNotMatch("[{}]|\\[\"", value.TextContent));
    }

    [Theory]
    [InlineData("not json")]
    [InlineData("{\"case\":\"x\"}")]
    [InlineData("[1]")]
    public async Task Of_DocumentChangedByHand_HasNoWords(string text)
    {
        await using var desk = await OpenAsync();
        var words = new RecordDocuments(new Sentences((await desk.Shop.SetupAsync()).FormatFor(), await desk.Shop.SetupAsync()));

        Assert.Null(words.Of(new RowChange(nameof(CareTask), "k", RowChangeKind.Made, []), nameof(CareTask.Recipe), text));
        Assert.Null(words.Of(Flag(LimitRule.Code, "2", "1"), nameof(Core.Flags.Flag.Numbers), text));
    }

    // A number that the sentence needs is gone; a severity is no number, or none that there can be.
    [Theory]
    [InlineData(LimitRule.Code, "2", "{}")]
    [InlineData(LimitRule.Code, "x", "{\"value\":4,\"limit\":5}")]
    [InlineData(LimitRule.Code, "99999999999999999999", "{\"value\":4,\"limit\":5}")]
    public async Task Of_FlagChangedByHand_HasNoWords(string rule, string severity, string numbers)
    {
        await using var desk = await OpenAsync();
        var words = new RecordDocuments(new Sentences((await desk.Shop.SetupAsync()).FormatFor(), await desk.Shop.SetupAsync()));

        Assert.Null(words.Of(Flag(rule, severity, "1"), nameof(Core.Flags.Flag.Numbers), numbers));
    }

    [Theory]
    [InlineData("{\"leastPercent\":3.5,\"isOn\":true,\"points\":[{\"mm\":1},{\"mm\":2}],\"why\":null}", "leastPercent 3.5, isOn yes, points mm 1; mm 2")]
    [InlineData("{\"least\":0.00002,\"most\":1e300}", "least 0.00002, most 1e300")]
    [InlineData("S-07", null)]
    [InlineData("12", null)]
    public async Task Plain_AnyDocument_IsItsNamesAndValues(string text, string? words)
    {
        await using var desk = await OpenAsync();

        Assert.Equal(words, new RecordDocuments(new Sentences((await desk.Shop.SetupAsync()).FormatFor(), await desk.Shop.SetupAsync())).Plain(text));
    }

    [Fact]
    public async Task Look_AnotherTag_GoesToTheAddressThatHoldsIt()
    {
        await using var desk = await OpenAsync();
        var page = Page(desk);

        page.Find(".trailfilters input[type=text]").Change("S-07");

        Assert.EndsWith("?about=S-07", desk.Services.GetRequiredService<Microsoft.AspNetCore.Components.NavigationManager>().Uri, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Render_NothingFits_SaysSoAndOffersTheFileOfTheSameSearch()
    {
        await using var desk = await OpenAsync();
        desk.Services.GetRequiredService<Microsoft.AspNetCore.Components.NavigationManager>().NavigateTo("record?about=no-such-tag");

        var page = Page(desk);

        Assert.Contains(Texts.Record_NothingFoundAdvice, page.Markup, StringComparison.Ordinal);
        Assert.Equal("record/entries.csv?about=no-such-tag", page.Find("a[download]").GetAttribute("href"));
    }

    [Fact]
    public async Task Word_EveryEnumerationOfTheRecord_HasItsWords()
    {
        await using var desk = await OpenAsync();
        var columns = await desk.Shop.ReadAsync(db => Task.FromResult(new TrailColumns(db.Model)));
        var enumerations = columns.All.Select(c => columns.Of(c.Entity, c.Column).Enumeration).OfType<Type>().Distinct().ToList();

        Assert.NotEmpty(enumerations);
        Assert.All(enumerations.SelectMany(e => Enum.GetValues(e).Cast<object>()), value => Assert.True(RecordValues.Word(value).Any(char.IsLetter), $"{value.GetType().Name}.{value}"));
    }

    private static RowChange Flag(string rule, string severity, string direction) => new(nameof(Core.Flags.Flag), "k", RowChangeKind.Made,
        [new("Rule", null, rule), new("Parameter", null, "concentration"), new("Severity", null, severity), new("Direction", null, direction)]);

    private static string? Cell(AngleSharp.Dom.IElement entry, string title, string column) => entry.QuerySelectorAll(".trailrow")
        .First(r => r.QuerySelector("h3")?.TextContent.Contains(title, StringComparison.Ordinal) == true)
        .QuerySelectorAll("dl > div").First(d => d.QuerySelector("dt")?.TextContent == column)
        .QuerySelector("dd")?.TextContent.Trim();

    private static async Task<DeskContext> OpenAsync()
    {
        var desk = await DeskContext.OpenAsync();
        desk.Services.AddSingleton(desk.Shop.Get<TrailQuery>());
        return desk;
    }

    private static IRenderedComponent<RecordPage> Page(DeskContext desk)
    {
        var page = desk.Render<RecordPage>();
        page.WaitForElement("h1", Patience);
        return page;
    }
}
