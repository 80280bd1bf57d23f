using Bunit;
using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Record.Trail;
using ShopFluids.Core.Wording;
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
