using System.Globalization;
using Microsoft.Playwright;
using ShopFluids.Core.Wording;
using ShopFluids.EndToEnd.Tests.Browser;
using ShopFluids.EndToEnd.Tests.Server;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.Entering;

/// <summary>What cannot be right is said at its field with the accepted range; what was typed stays; nothing is stored.</summary>
[Collection(SqliteDemoTests.Name)]
public sealed class BadInputTests(SqliteDemo demo, Chromium chromium)
{
    private const string Tag = "S-09";

    [Theory]
    [InlineData(null, "15", null, "value-ph", "0 to 14")]
    [InlineData("80", null, null, "value-concentration", "0 Brix to 30 Brix")]
    [InlineData(null, null, "2000", "value-level", "0 mm to 450 mm")]
    [InlineData(null, "nine", null, "value-ph", "nine")]
    public async Task Save_ValueThatCannotBe_SaysTheRangeAtTheFieldAndKeepsWhatWasTyped(string? brix, string? ph, string? level, string control, string said)
    {
        await using var tablet = await demo.VisitAsync(chromium, Texts.Role_Operator);
        var before = await CountAsync();
        var entry = new EntryPage(tablet);
        await entry.OpenAsync(Tag);
        await entry.TypeAsync(brix ?? "5.0", ph ?? "8,9", level ?? "300", "Kept as typed");
        await entry.SaveAsync();

        await Assertions.Expect(tablet.Page.GetByRole(AriaRole.Alert).First).ToContainTextAsync(Texts.Entry_NotSaved);
        var box = tablet.Page.Locator($"input[id^='{control}'][aria-invalid=true]");
        await Assertions.Expect(box).ToHaveCountAsync(1);
        var message = tablet.Page.Locator($"[id='{(await box.GetAttributeAsync("aria-describedby"))!.Split(' ')[0]}']");
        await Assertions.Expect(message).ToContainTextAsync(said);
        await Assertions.Expect(entry.Concentration).ToHaveValueAsync(brix ?? "5.0");
        await Assertions.Expect(entry.Ph).ToHaveValueAsync(ph ?? "8,9");
        await Assertions.Expect(entry.Level).ToHaveValueAsync(level ?? "300");
        await Assertions.Expect(entry.Note).ToHaveValueAsync("Kept as typed");
        Assert.Equal(before, await CountAsync());
    }

    [Fact]
    public async Task Save_CommaDecimal_IsReadAsANumber()
    {
        await using var tablet = await demo.VisitAsync(chromium, Texts.Role_Operator);
        var entry = new EntryPage(tablet);
        await entry.OpenAsync(Tag);
        await entry.TypeAsync(null, "8,9", null);
        var id = await entry.SaveForSureAsync();
        await Assertions.Expect(tablet.Page.Locator("dl.three")).ToContainTextAsync("8.9");
        var stored = (await demo.Api.AllAsync($"/api/v1/sumps/{Tag}/readings?limit=200")).Single(r => r.GetProperty("id").GetGuid() == id);
        Assert.Equal(8.9, stored.GetProperty("measurements")[0].GetProperty("value").GetDouble());
    }

    [Fact]
    public async Task Save_NothingTyped_SaysSo()
    {
        await using var tablet = await demo.VisitAsync(chromium, Texts.Role_Operator);
        var before = await CountAsync();
        var entry = new EntryPage(tablet);
        await entry.OpenAsync(Tag);
        await entry.SaveAsync();
        await Assertions.Expect(tablet.Page.GetByRole(AriaRole.Alert).First).ToContainTextAsync(Texts.Field_NothingMeasured);
        Assert.Equal(before, await CountAsync());
    }

    [Fact]
    public async Task Save_NoteOfTenKilobytes_NamesTheLongestNoteAndKeepsIt()
    {
        await using var tablet = await demo.VisitAsync(chromium, Texts.Role_Operator);
        var before = await CountAsync();
        var entry = new EntryPage(tablet);
        await entry.OpenAsync(Tag);
        await entry.TypeAsync(null, "8.9", null);

        // The box takes no more than fits; a browser that does not know the attribute sends it all.
        await entry.Note.EvaluateAsync("box => box.removeAttribute('maxlength')");
        var note = string.Concat(Enumerable.Repeat("0123456789", 1024));
        await entry.Note.FillAsync(note);
        await entry.SaveAsync();
        await Assertions.Expect(tablet.Page.Locator("#note-fault")).ToContainTextAsync(10_240.ToString("N0", CultureInfo.GetCultureInfo("en-GB")));
        await Assertions.Expect(entry.Note).ToHaveValueAsync(note);
        Assert.Equal(before, await CountAsync());
    }

    [Fact]
    public async Task Open_SumpThatIsNotThere_SaysSoAndLeadsOn()
    {
        await using var tablet = await demo.VisitAsync(chromium, Texts.Role_Operator);
        var answer = await tablet.GoAsync("/enter/S-99");
        Assert.Equal(404, answer.Status);
        await Assertions.Expect(tablet.Page.GetByRole(AriaRole.Alert)).ToContainTextAsync(string.Format(CultureInfo.InvariantCulture, Texts.Entry_SumpUnknown, "S-99"));
        await tablet.Page.GetByRole(AriaRole.Link, new() { Name = Texts.Round_AllSumps }).ClickAsync();
        await Assertions.Expect(tablet.Page.Locator("a.stop")).Not.ToHaveCountAsync(0);
    }

    private async Task<int> CountAsync() => (await demo.Api.AllAsync($"/api/v1/sumps/{Tag}/readings?limit=200")).Count;
}
