using Bunit;
using Microsoft.Extensions.DependencyInjection;
using MudBlazor;
using ShopFluids.Core.Board;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Board.Work;
using ShopFluids.Web.Tests.Layout;
using Xunit;

namespace ShopFluids.Web.Tests.Board;

public sealed class WorkDialogTests
{
    // Who gives out today's work is not shown the filter of next month until they ask.
    [Fact]
    public async Task Open_FarOffWork_StandsBehindAButton()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StepAsync(Some.Step(TaskKind.Skim));
        await desk.Shop.StepAsync(Some.Step(TaskKind.ChangeFilter, anchor: new DateOnly(2026, 3, 30)));
        await desk.Shop.StepAsync(Some.Step(TaskKind.DrainClean, anchor: new DateOnly(2026, 4, 30)));
        await desk.Shop.StoreAsync(Some.Reading(brix: 4.0m));
        var dialog = await DialogAsync(desk);
        Assert.Equal(2, dialog.FindAll(".row.task").Count);

        var later = dialog.FindAll("button").Single(b => b.TextContent == "Show later (2)");
        Assert.Equal("false", later.GetAttribute("aria-expanded"));
        await later.ClickAsync(new());

        Assert.Equal(4, dialog.FindAll(".row.task").Count);
        Assert.Contains(dialog.FindAll("button"), b => b.TextContent == Texts.Board_HideLater);
    }

    [Fact]
    public async Task Open_NothingLater_HasNoButton()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StoreAsync(Some.Reading(brix: 4.0m));

        var dialog = await DialogAsync(desk);

        Assert.Single(dialog.FindAll(".row.task"));
        Assert.Empty(dialog.FindAll("button[aria-expanded]"));
    }

    // What was at the keyboard's end has gone with the work: without the focus in the dialog no key would close it.
    [Fact]
    public async Task Skip_Work_SaysThatItIsSavedAndTakesTheFocusThere()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StepAsync(Some.Step(TaskKind.Skim));
        await desk.Shop.StoreAsync(Some.Reading(brix: 4.0m));
        var dialog = await DialogAsync(desk);
        Assert.Equal("", dialog.Find(".said").TextContent);

        await dialog.FindAll(".row.task button").First(b => b.TextContent == Texts.Board_Skip).ClickAsync(new());
        await dialog.Find(".row.task textarea").ChangeAsync(new() { Value = "Waits for a part" });
        var moved = desk.JSInterop.Invocations["Blazor._internal.domWrapper.focus"].Count;
        await dialog.Find(".row.task .reason .pri").ClickAsync(new());

        dialog.WaitForAssertion(() => Assert.Equal(Texts.Board_Saved, dialog.Find(".said").TextContent));
        desk.JSInterop.VerifyFocusAsyncInvoke(moved + 1);
    }

    // To close a flag is the exception, to do its work the rule.
    [Fact]
    public async Task Open_FlagWithWork_TheWorkStandsFirst()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StoreAsync(Some.Reading(brix: 4.0m));

        var rows = (await DialogAsync(desk)).Markup;

        Assert.InRange(rows.IndexOf("row task", StringComparison.Ordinal), 0, rows.IndexOf(Texts.Board_CloseFlag, StringComparison.Ordinal));
    }

    private static async Task<IRenderedComponent<MudDialogProvider>> DialogAsync(DeskContext desk)
    {
        var board = await desk.Services.GetRequiredService<BoardQuery>().RunAsync(new(), Xunit.TestContext.Current.CancellationToken);
        var words = await desk.Services.GetRequiredService<DeskSession>().WordsAsync(board.Setup);
        var provider = desk.Render<MudDialogProvider>();
        await provider.InvokeAsync(() => desk.Services.GetRequiredService<IDialogService>().ShowAsync<WorkDialog>(
            "Open on S-07", new DialogParameters<WorkDialog> { { d => d.Row, board.Rows[0] }, { d => d.People, board.People }, { d => d.Words, words } }));
        provider.WaitForElement(".row.task", TimeSpan.FromSeconds(20));
        return provider;
    }
}
