using Bunit;
using ShopFluids.Core.Board;
using ShopFluids.Rules;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Pages.Board;
using ShopFluids.Web.Tests.Layout;
using Xunit;

namespace ShopFluids.Web.Tests.Board;

public sealed class DayStripTests
{
    private static readonly DateOnly Day = new(2026, 3, 2);

    // A box has room for two letters: of three kinds of work none may seem not to be there.
    [Theory]
    [InlineData("T S", TaskKind.Test, TaskKind.Skim)]
    [InlineData("T +", TaskKind.Test, TaskKind.Skim, TaskKind.DrainClean)]
    public async Task Render_WorkOfADay_ShowsTwoLettersOrThatThereIsMore(string shown, params TaskKind[] kinds)
    {
        await using var desk = await DeskContext.OpenAsync();

        var format = (await desk.Shop.SetupAsync()).FormatFor();
        var strip = desk.Render<DayStrip>(p => p
            .Add(s => s.Days, [new BoardDay(Day, IsOpen: true)])
            .Add(s => s.Tasks, [.. kinds.Select(TaskOf)])
            .Add(s => s.Format, format));

        Assert.Equal(shown, string.Join(' ', strip.FindAll(".week i")[1].QuerySelectorAll("u").Select(u => u.TextContent)));
        Assert.All(kinds, k => Assert.Contains(TaskWord.Of(k), strip.Find(".week").GetAttribute("aria-label"), StringComparison.Ordinal));
    }

    private static BoardTask TaskOf(TaskKind kind) => new(Some.Id(), kind, $"step:{kind}", Some.Start.AddDays(1), Day, IsLate: false, IsOfPlan: true, null, null);
}
