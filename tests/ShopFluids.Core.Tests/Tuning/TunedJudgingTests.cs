using ShopFluids.Core.Flags;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record.Replay;
using ShopFluids.Core.Tuning;
using ShopFluids.Rules.Limit;
using ShopFluids.Rules.Registry;
using ShopFluids.Rules.RunDry;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Tuning;

/// <summary>
/// Readings are judged by the settings that were stored before them. The sump holds 70 L above the intake at 200 mm; 28 L are needed by
/// default.
/// </summary>
public sealed class TunedJudgingTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task RecordAsync_NumberSetForTheSump_JudgesByItAndTheFlagKeepsWhatItUsed(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        Assert.DoesNotContain((await ReadAsync(shop)).Raised, f => f.Rule == RunDryRule.RuleCode);

        await SetAsync(shop, 80);
        var raised = Assert.Single((await ReadAsync(shop)).Raised, f => f.Rule == RunDryRule.RuleCode);

        var flag = await shop.ReadAsync(db => Task.FromResult(db.Flags.Single(f => f.Id == raised.Id)));
        Assert.Equal(RuleRegistry.Find(RunDryRule.RuleCode)?.Version, flag.RuleVersion);
        Assert.Equal(80, flag.Numbers["neededLitres"]);
        Assert.Equal(new SortedDictionary<string, decimal> { ["neededLitres"] = 80, ["neededPercent"] = 20 }, flag.Tuning);
        Assert.Equal((await shop.SetupAsync()).LimitSets.Single(l => l.SumpId == shop.SumpId).Id, flag.LimitSetId);
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task RecordAsync_SetForTheFluidOnAnotherInstance_JudgesByIt(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var other = shop.Another();
        await ReadAsync(other);
        var command = new SetRule(Some.Id(), RunDryRule.RuleCode, shop.FluidId, null, null, Needed(80), "Measured at the return", 0);
        (await shop.Get<SetRuleHandler>().HandleAsync(command, Some.Supervisor, Stop)).Done();

        Assert.Contains((await ReadAsync(other)).Raised, f => f.Rule == RunDryRule.RuleCode);
    }

    [Theory, EachDatabase]
    public async Task RecordAsync_SwitchedOff_ClosesNothingByItselfButTheNextReadingDoes(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await SetAsync(shop, 80);
        var raised = Assert.Single((await ReadAsync(shop)).Raised, f => f.Rule == RunDryRule.RuleCode);

        await SetAsync(shop, 80, isOn: false, seen: 1);

        Assert.Null((await shop.ReadAsync(db => Task.FromResult(db.Flags.Single(f => f.Id == raised.Id)))).EndedAtUtc);
        var next = await ReadAsync(shop);
        Assert.Contains(next.Cleared, f => f.Id == raised.Id);
        Assert.DoesNotContain(next.Raised, f => f.Rule == RunDryRule.RuleCode);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_SettingsChangedBetweenReadings_ReplayGivesTheSameAnswers(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await ReadAsync(shop);
        await SetAsync(shop, 80);
        await ReadAsync(shop);
        await SetAsync(shop, 60, seen: 1);
        await ReadAsync(shop);

        // Taken before the last change and stored after it: judged by what is set when it is stored.
        await shop.StoreAsync(Some.Reading(levelMm: 150, takenAt: shop.Now.AddMinutes(-90)));
        await SetAsync(shop, 80, isOn: false, seen: 2);
        await ReadAsync(shop);

        var report = await shop.Another().Get<ReplayQuery>().RunAsync(Stop);

        Assert.Equal(5, report.Readings);
        Assert.Empty(report.Differences);
        Assert.Equal(1, await shop.ReadAsync(db => Task.FromResult(db.Flags.Count(f => f.Rule == RunDryRule.RuleCode && f.EndedHow == FlagEnd.Cleared))));
    }

    [Theory, EachDatabase]
    public async Task RunAsync_PreviewOfATunedRule_AnswersWhatStoringWould(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await SetAsync(shop, 80);
        var command = Some.Reading(levelMm: 200);

        var preview = (await shop.Get<PreviewReadingQuery>().RunAsync(command, Stop)).Done();
        var stored = await shop.StoreAsync(command);

        Assert.Equal(stored.Raised.Select(f => f.Rule), preview.Raised.Select(f => f.Rule));
        Assert.Contains(preview.Raised, f => f.Rule == RunDryRule.RuleCode);
    }

    [Theory, EachDatabase]
    public async Task RecordAsync_RuleWithoutNumbers_KeepsNone(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        await shop.StoreAsync(Some.Reading(brix: 4.0m));

        var flag = await shop.ReadAsync(db => Task.FromResult(db.Flags.First(f => f.Rule == LimitRule.Code)));
        Assert.Null(flag.Tuning);
        Assert.NotNull(flag.LimitSetId);
    }

    private static Task<ReadingOutcome> ReadAsync(ShopFixture shop)
    {
        shop.Clock.Advance(TimeSpan.FromHours(1));
        return shop.StoreAsync(Some.Reading(levelMm: 200, takenAt: shop.Now));
    }

    private static async Task SetAsync(ShopFixture shop, decimal litres, bool? isOn = null, int seen = 0)
    {
        var command = new SetRule(Some.Id(), RunDryRule.RuleCode, null, shop.SumpId, isOn, Needed(litres), "Measured at the return", seen);
        (await shop.Get<SetRuleHandler>().HandleAsync(command, Some.Supervisor, Stop)).Done();
    }

    private static Dictionary<string, decimal> Needed(decimal litres) => new() { [RunDryRule.NeededLitres] = litres };
}
