using Microsoft.EntityFrameworkCore;
using ShopFluids.Calculations.Mixing;
using ShopFluids.Core.Board;
using ShopFluids.Rules;
using ShopFluids.Rules.FirstFillDrop;
using ShopFluids.Rules.Limit;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.DemoData;

/// <summary>What the demo is there to show must be there to see, on whatever day somebody starts it.</summary>
public sealed class DemoTroublesTests
{
    private const int Weeks = 5;

    // After a weekend, mid-week in the first minute of a shop day, before and on a weekend, in the night that still belongs to it, and on a clock change.
    [Theory]
    [InlineData("2026-11-23T09:30:00Z")]
    [InlineData("2026-11-25T06:00:30Z")]
    [InlineData("2026-11-27T15:00:00Z")]
    [InlineData("2026-11-28T10:00:00Z")]
    [InlineData("2026-11-29T03:00:00Z")]
    [InlineData("2027-03-28T11:00:00Z")]
    public async Task LoadAsync_AnyDay_ShowsEveryTroubleAndWorkForTheRound(string now)
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        using var folder = new DemoFolder(Weeks);
        var run = new DemoRun(database, DateTimeOffset.Parse(now, System.Globalization.CultureInfo.InvariantCulture));

        (await run.LoadAsync(folder)).Done();

        var board = await run.BoardAsync();
        Evaporating(board["S-18"]);
        Diluted(board["S-03"]);
        Foul(board["S-12"]);
        TrampOil(board["S-09"]);
        Assert.Equal(SumpState.Overdue, board["S-21"].Standing.State);
        Assert.Contains(board["S-21"].Flags, f => f.Rule == "overdue-test");
        Assert.Contains(board["S-21"].Tasks, t => t.Kind == TaskKind.Test && t.IsLate);
        Assert.Equal(SumpState.NotMeasured, board["S-15"].Standing.State);
        Assert.Null(board["S-15"].LastReadAtUtc);
        Assert.Equal(SumpState.InRange, board["S-07"].Standing.State);
        Assert.Empty(board["S-07"].Flags);

        var round = await run.RoundAsync();
        Assert.Subset(round.Due.Select(d => d.Place.Tag).ToHashSet(), new HashSet<string>(["S-01", "S-07", "S-11", "S-15", "C-01"]));
        Assert.Subset(round.Read.Select(d => d.Place.Tag).ToHashSet(), new HashSet<string>(["S-03", "S-18"]));
        Assert.True(round.MinutesLeft > 0);
        await DosedAsync(database, board["S-18"]);
        await EndsAsync(database, DateTimeOffset.Parse(now, System.Globalization.CultureInfo.InvariantCulture).UtcDateTime);
    }

    // However early it is, nothing was read or recorded that is still to come.
    private static async Task EndsAsync(TestDatabase database, DateTime nowUtc)
    {
        await using var db = database.Open();
        Assert.True(await db.Readings.MaxAsync(r => r.TakenAtUtc, TestContext.Current.CancellationToken) <= nowUtc);
        Assert.True(await db.RecordEntries.MaxAsync(e => e.AtUtc, TestContext.Current.CancellationToken) <= nowUtc);
    }

    // The slides rise, the biocide keeps within its label, and the slide after it shows the fall.
    private static async Task DosedAsync(TestDatabase database, BoardRow row)
    {
        var stop = TestContext.Current.CancellationToken;
        await using var db = database.Open();
        var slides = await db.Readings.Where(r => r.SumpId == row.SumpId && r.Measurements.Any(m => m.Parameter == ParameterCodes.Bacteria)).OrderBy(r => r.TakenAtUtc)
            .Select(r => new { r.TakenAtUtc, r.Measurements.First(m => m.Parameter == ParameterCodes.Bacteria).Value }).ToListAsync(stop);
        var dose = await db.Doses.SingleAsync(d => d.SumpId == row.SumpId, stop);
        var (before, after) = (slides.Where(s => s.TakenAtUtc < dose.GivenAtUtc).ToList(), slides.Where(s => s.TakenAtUtc > dose.GivenAtUtc).ToList());
        Assert.Equal([3.5, 4.0, 5.0], before.Select(s => s.Value).Where(v => v >= 3.5).Distinct());
        Assert.Equal(5.0, before[^1].Value);
        Assert.NotEmpty(after);
        Assert.All(after, s => Assert.Equal(3.0, s.Value));
        Assert.Contains("5.0 log", dose.Reason, StringComparison.Ordinal);
        Assert.DoesNotContain(row.Flags, f => f.Parameter == ParameterCodes.Bacteria);
    }

    private static void Evaporating(BoardRow row)
    {
        Assert.Equal(SumpState.Warning, row.Standing.State);
        Assert.Contains(row.Flags, f => f is { Rule: LimitRule.Code, Parameter: ParameterCodes.Concentration, Severity: Verdict.Warning, Direction: Direction.High });
        Assert.Contains(row.Flags, f => f is { Rule: LimitRule.Code, Parameter: ParameterCodes.Level, Direction: Direction.Low });
        Assert.Contains(row.Tasks, t => t is { Kind: TaskKind.Adjust, Recipe: { WaterLitres: > 0, ConcentrateLitres: > 0, RemoveLitres: 0 }, IsLate: false });
    }

    private static void Diluted(BoardRow row)
    {
        Assert.Equal(SumpState.Action, row.Standing.State);
        Assert.Contains(row.Flags, f => f is { Rule: LimitRule.Code, Parameter: ParameterCodes.Concentration, Severity: Verdict.Action, Direction: Direction.Low });
        Assert.Contains(row.Tasks, t => t is { Kind: TaskKind.Adjust, Recipe: { Case: TopUpCase.SwapAtLevel or TopUpCase.RemoveFirst, ConcentrateLitres: > 0 } });
    }

    private static void Foul(BoardRow row)
    {
        Assert.Equal(SumpState.Action, row.Standing.State);
        Assert.Contains(row.Flags, f => f is { Parameter: ParameterCodes.Odour, Severity: Verdict.Action });
        Assert.Contains(row.Flags, f => f is { Rule: FirstFillDropRule.Code, Parameter: ParameterCodes.Ph });
        Assert.Contains(row.Tasks, t => t is { Kind: TaskKind.DrainClean, IsOfPlan: false, Who.Name: "J. Karrow" });
    }

    private static void TrampOil(BoardRow row)
    {
        Assert.Equal(SumpState.Warning, row.Standing.State);
        Assert.Contains(row.Flags, f => f is { Rule: LimitRule.Code, Parameter: ParameterCodes.TrampOil, Direction: Direction.High });
        Assert.Contains(row.Tasks, t => t is { Kind: TaskKind.Skim });
    }
}
