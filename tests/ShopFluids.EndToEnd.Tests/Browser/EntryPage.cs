using Microsoft.Playwright;
using ShopFluids.Core.Wording;

namespace ShopFluids.EndToEnd.Tests.Browser;

/// <summary>The entry page in the hands of an operator.</summary>
internal sealed class EntryPage(Visit visit)
{
    private readonly IPage _page = visit.Page;

    public ILocator Concentration => _page.Locator("input[name^='value-concentration'][name$='refractometer'], input[name='value-concentration']").First;

    public ILocator Ph => _page.Locator("input[name^='value-ph']").First;

    public ILocator Level => _page.Locator("input[name^='value-level']").First;

    public ILocator Note => _page.GetByLabel(Texts.Entry_Note, new() { Exact = true });

    /// <summary>The answer "the value is right" of a question; there is one for each value that looks unlikely.</summary>
    public ILocator Keep => _page.Locator("button[name=confirm]");

    public Task OpenAsync(string tag) => visit.GoAsync($"/enter/{tag}");

    /// <summary>Types what is to be typed; null leaves a box as it is.</summary>
    public async Task TypeAsync(string? brix, string? ph, string? level, string? note = null)
    {
        foreach (var (box, text) in new[] { (Concentration, brix), (Ph, ph), (Level, level), (Note, note) })
        {
            if (text is not null)
            {
                await UnfoldAsync(box);
                await box.FillAsync(text);
            }
        }
    }

    /// <summary>The button that saves.</summary>
    public ILocator Save => _page.GetByRole(AriaRole.Button, new() { Name = Texts.Entry_Save, Exact = true });

    /// <summary>Saves and waits for the page that it leads to.</summary>
    public Task SaveAsync() => MoveOnAsync(() => Save.ClickAsync());

    /// <summary>Saves, and answers every question with "it is right".</summary>
    /// <returns>The id of the stored reading.</returns>
    public async Task<Guid> SaveForSureAsync()
    {
        await SaveAsync();
        while (await Keep.CountAsync() > 0)
        {
            await MoveOnAsync(() => Keep.First.ClickAsync());
        }

        await _page.WaitForURLAsync("**/saved/**");
        return Guid.Parse(new Uri(_page.Url).Segments[^1]);
    }

    /// <summary>Presses something that saves or answers, and waits: with a script and without it ends in another document.</summary>
    public async Task MoveOnAsync(Func<Task> press)
    {
        var moved = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        void Note(object? sender, IFrame frame)
        {
            if (frame == _page.MainFrame)
            {
                moved.TrySetResult();
            }
        }

        _page.FrameNavigated += Note;
        try
        {
            await press();
            await moved.Task.WaitAsync(TimeSpan.FromMilliseconds(Visit.PatienceMilliseconds));
        }
        finally
        {
            _page.FrameNavigated -= Note;
        }

        await visit.SettleAsync();
    }

    // What is not due lies folded below; the fold opens without a script, too.
    private static async Task UnfoldAsync(ILocator box)
    {
        if (!await box.IsVisibleAsync())
        {
            await box.Locator("xpath=ancestor::details[1]/summary").ClickAsync();
        }
    }
}
