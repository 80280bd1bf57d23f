using System.Diagnostics;
using Microsoft.Playwright;
using ShopFluids.Core.Wording;
using ShopFluids.EndToEnd.Tests.Browser;
using ShopFluids.EndToEnd.Tests.Server;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.Pictures;

/// <summary>
/// Takes the pictures of the documentation from the demo shop. No test: deploy/dev/screenshots.sh asks for it by name, and says in
/// SHOPFLUIDS_TEST_PICTURES where the pictures go.
/// </summary>
[Collection(SqliteDemoTests.Name)]
public sealed class PictureMaker(SqliteDemo demo, Chromium chromium)
{
    [Fact(Explicit = true)]
    public async Task TakePictures()
    {
        var folder = Environment.GetEnvironmentVariable("SHOPFLUIDS_TEST_PICTURES") ?? throw new InvalidOperationException("SHOPFLUIDS_TEST_PICTURES names no folder.");
        Directory.CreateDirectory(folder);

        await using var tablet = await demo.VisitAsync(chromium, Texts.Role_Operator);
        await tablet.GoAsync("/round");
        await TakeAsync(tablet, folder, "round");
        var tag = (await tablet.Page.Locator("section.next .tag1").InnerTextAsync()).Trim();

        var entry = new EntryPage(tablet);
        await entry.OpenAsync(tag);
        await entry.TypeAsync("4.3", "9.0", "305");
        await tablet.Page.Locator("input[name^='value-tramp-oil']").FillAsync("4");
        await tablet.Page.GetByText(Texts.Word_Odour0, new() { Exact = true }).First.ClickAsync();
        await TakeAsync(tablet, folder, "entry");
        await entry.SaveForSureAsync();
        await TakeAsync(tablet, folder, "after-save");

        await using var desk = await demo.VisitAsync(chromium, Texts.Role_Supervisor, 1440, 900);
        await desk.GoAsync("/board");
        await TakeAsync(desk, folder, "board");
        await desk.GoAsync($"/sumps/{tag}");
        await TakeAsync(desk, folder, "sump");

        var sheet = await desk.Page.Context.APIRequest.GetAsync($"/sheets/sumps/{tag}/history.pdf");
        await PrintAsync(await sheet.BodyAsync(), Path.Combine(folder, "history-sheet"));
        Assert.Equal(6, Directory.GetFiles(folder, "*.png").Length);
    }

    private static async Task TakeAsync(Visit visit, string folder, string name)
    {
        // No caret and no ring of a focus that nobody put there.
        await visit.Page.EvaluateAsync("() => document.activeElement?.blur()");
        await visit.Page.ScreenshotAsync(new PageScreenshotOptions { Path = Path.Combine(folder, $"{name}.png") });
    }

    /// <summary>The first page, as poppler draws it.</summary>
    private static async Task PrintAsync(byte[] pdf, string file)
    {
        var source = $"{file}.pdf";
        await File.WriteAllBytesAsync(source, pdf);
        using var process = Process.Start("pdftoppm", ["-png", "-r", "80", "-f", "1", "-l", "1", "-singlefile", source, file]);
        await process.WaitForExitAsync();
        File.Delete(source);
        Assert.Equal(0, process.ExitCode);
    }
}
