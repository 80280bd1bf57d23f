using System.Diagnostics;
using Microsoft.Playwright;
using ShopFluids.Core.Wording;
using ShopFluids.EndToEnd.Tests.Browser;
using ShopFluids.EndToEnd.Tests.Looks;
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
        var folder = Folder("");
        await using var tablet = await demo.VisitAsync(chromium, Texts.Role_Operator);
        await tablet.GoAsync("/round");
        await TakeAtEachWidthAsync(tablet, folder, "round");
        var tag = (await tablet.Page.Locator("section.next .tag1").InnerTextAsync()).Trim();

        var entry = new EntryPage(tablet);
        await entry.OpenAsync(tag);
        await entry.TypeAsync("4.3", "9.0", "305");
        await tablet.Page.Locator("input[name^='value-tramp-oil']").FillAsync("4");
        await tablet.Page.GetByText(Texts.Word_Odour0, new() { Exact = true }).First.ClickAsync();
        await TakeAtEachWidthAsync(tablet, folder, "entry");
        await entry.TypeAsync("4.3", "8.2", null);
        await Assertions.Expect(tablet.Page.Locator("#value-ph-work .warn, #value-ph-work .act")).ToBeVisibleAsync();
        await TakeAtEachWidthAsync(tablet, folder, "entry-warning");
        await entry.SaveForSureAsync();
        await TakeAtEachWidthAsync(tablet, folder, "after-save");

        await using var desk = await demo.VisitAsync(chromium, Texts.Role_Supervisor, 1440, 900);
        await desk.GoAsync("/board");
        await TakeAsync(desk, folder, "board");
        await desk.GoAsync($"/sumps/{tag}");
        await TakeAsync(desk, folder, "sump");

        var sheet = await desk.Page.Context.APIRequest.GetAsync($"/sheets/sumps/{tag}/history.pdf");
        await PrintAsync(await sheet.BodyAsync(), Path.Combine(folder, "history-sheet"));
        Assert.Equal(15, Directory.GetFiles(folder, "*.png").Length);
    }

    /// <summary>Every page of the desk in both themes, as it stands in the first window: many, so they are small files.</summary>
    [Fact(Explicit = true)]
    public async Task TakeEveryPageOfTheDesk()
    {
        var folder = Folder("pages");
        foreach (var page in CheckedPage.All.Where(p => !p.IsTablet))
        {
            await using var visit = await page.OpenAsync(demo, chromium);
            await visit.Page.EvaluateAsync("() => document.querySelector('details.person')?.removeAttribute('open')");
            foreach (var theme in new[] { "light", "dark" })
            {
                await visit.ThemeAsync(theme);
                var file = Path.Combine(folder, $"{page.Name.Replace(", ", "-", StringComparison.Ordinal).Replace(' ', '-')}-{theme}.jpg");
                await visit.Page.ScreenshotAsync(new PageScreenshotOptions { Path = file, Type = ScreenshotType.Jpeg, Quality = 60 });
            }
        }
    }

    private static string Folder(string name)
    {
        var given = Environment.GetEnvironmentVariable("SHOPFLUIDS_TEST_PICTURES") ?? throw new InvalidOperationException("SHOPFLUIDS_TEST_PICTURES names no folder.");
        return Directory.CreateDirectory(Path.Combine(given, name)).FullName;
    }

    // The tablet last, which is the size that the next page is opened in.
    private static async Task TakeAtEachWidthAsync(Visit visit, string folder, string name)
    {
        foreach (var (width, height, suffix) in new[] { (360, 740, "-360"), (1280, 800, "-1280"), (800, 1280, "") })
        {
            await visit.SizeAsync(width, height);
            await TakeAsync(visit, folder, name + suffix);
        }
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
