using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Tuning;
using ShopFluids.Rules.Drift;
using ShopFluids.Rules.Registry;
using ShopFluids.Rules.SuddenChange;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Tuning;

/// <summary>Setting a rule: what is stored, what is refused, and whose setting holds.</summary>
public sealed class SetRuleTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task HandleAsync_ShopFluidAndSump_TheNearestSpeaksForEachNumber(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var rule = Assert.IsType<DriftRule>(RuleRegistry.Find(DriftRule.RuleCode));
        await DoneAsync(shop, Drift(isOn: false, days: 10, readings: 7));
        await DoneAsync(shop, Drift(fluid: shop.FluidId, isOn: true, days: 12));
        await DoneAsync(shop, Drift(sump: shop.SumpId, days: 21));

        var setup = await shop.SetupAsync();

        var ofSump = setup.TuningsFor(shop.SumpId, shop.FluidId).Of(rule);
        Assert.Equal((true, RuleLevel.Fluid), (ofSump.IsOn, ofSump.OnFrom));
        Assert.Equal((21, RuleLevel.Sump), Number(ofSump, DriftRule.HorizonDays));
        Assert.Equal((7, RuleLevel.Shop), Number(ofSump, DriftRule.LeastReadings));
        Assert.Equal((42, RuleLevel.Shipped), Number(ofSump, DriftRule.UsualDays));
        var other = setup.TuningsFor(null, shop.FluidId).Of(rule);
        Assert.Equal((12, RuleLevel.Fluid), Number(other, DriftRule.HorizonDays));
        var elsewhere = setup.TuningsFor(Some.Id(), Some.Id()).Of(rule);
        Assert.Equal((false, RuleLevel.Shop), (elsewhere.IsOn, elsewhere.OnFrom));
        Assert.Equal((10, RuleLevel.Shop), Number(elsewhere, DriftRule.HorizonDays));
        var fromAbove = setup.TuningsFor(shop.SumpId, shop.FluidId).Of(rule, RuleLevel.Fluid);
        Assert.Equal((12, RuleLevel.Fluid), Number(fromAbove, DriftRule.HorizonDays));
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_SetAgain_TheNewestVersionHoldsAndTheOldOneIsKept(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await DoneAsync(shop, Drift(days: 10, readings: 7));

        Assert.Equal(2, (await DoneAsync(shop, Drift(days: 20, seen: 1, reason: "Fewer flags"))).Number);

        var setup = await shop.SetupAsync();
        var held = setup.TuningsFor(shop.SumpId, shop.FluidId).Of(new DriftRule());
        Assert.Equal((20, RuleLevel.Shop), Number(held, DriftRule.HorizonDays));
        Assert.Equal((6, RuleLevel.Shipped), Number(held, DriftRule.LeastReadings));
        Assert.Equal([1, 2], setup.RuleSettings.Select(s => s.Number).Order());
        var changes = await shop.Get<RuleChangesQuery>().RunAsync(null, null, Stop);
        Assert.Equal([("Fewer flags", 1), ("Trial", 0)], changes.Select(c => (c.Setting.Reason, c.Before?.Number ?? 0)));
        Assert.Equal(Some.Supervisor.PersonId, changes[0].Setting.PersonId);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_StandsInTheRecord_WithWhoAndWhere(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await DoneAsync(shop, Drift(sump: shop.SumpId, days: 21));

        var entry = await shop.ReadAsync(db => Task.FromResult(db.RecordEntries.OrderByDescending(e => e.Sequence).First()));

        Assert.Equal((ActCodes.RuleSet, Some.SumpTag, Some.Supervisor.PersonId), (entry.Code, entry.Subject, entry.ActorId));
        Assert.Contains("\"RuleSetting\"", entry.Changes, StringComparison.Ordinal);
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_OutsideTheRange_NamesTheFieldAndWhatIsAccepted(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var before = await shop.FootprintAsync();

        var errors = Assert.IsType<FieldErrors>((await SetAsync(shop, Drift(days: 91, readings: 5.5m, reason: " "))).Error).Fields;

        Assert.Equal(
            [("rules.drift.horizonDays", FieldProblem.OutOfRange, 2m, 90m), ("rules.drift.leastReadings", FieldProblem.NotWhole, 4m, 26m), ("reason", FieldProblem.Missing, 0m, 0m)],
            errors.Select(e => (e.Field, e.Problem, e.Low ?? 0, e.High ?? 0)));
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_AtTheEndsOfTheRange_IsAccepted(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        await DoneAsync(shop, Drift(days: 2));
        await DoneAsync(shop, Drift(days: 90, seen: 1));

        Assert.Equal(2, await shop.CountAsync<RuleSetting>());
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_UnknownNumberRuleOrPlace_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var noNumber = Drift(days: 10) with { Numbers = new Dictionary<string, decimal> { ["luck"] = 7 } };

        var error = Assert.Single(Assert.IsType<FieldErrors>((await SetAsync(shop, noNumber)).Error).Fields);

        Assert.Equal(("rules.drift.luck", FieldProblem.UnknownChoice), (error.Field, error.Problem));
        Assert.IsType<RuleNotFound>((await SetAsync(shop, Drift(days: 10) with { Rule = "limit" })).Error);
        Assert.IsType<FluidNotFound>((await SetAsync(shop, Drift(fluid: Some.Id(), days: 10))).Error);
        Assert.IsType<SumpNotFound>((await SetAsync(shop, Drift(sump: Some.Id(), days: 10))).Error);
        Assert.Equal("owner", Assert.Single(Assert.IsType<FieldErrors>((await SetAsync(shop, Drift(fluid: shop.FluidId, sump: shop.SumpId, days: 10))).Error).Fields).Field);
        Assert.Equal(0, await shop.CountAsync<RuleSetting>());
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_PressedTwice_StoresOnce(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var command = Drift(days: 10);
        await DoneAsync(shop, command);

        Assert.Equal(1, (await DoneAsync(shop, command)).Number);
        Assert.IsType<OtherContentForId>((await SetAsync(shop, command with { IsOn = false })).Error);
        Assert.IsType<NothingChanged>((await SetAsync(shop, Drift(days: 10, seen: 1))).Error);
        Assert.Equal(1, await shop.CountAsync<RuleSetting>());
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_TwoAtOnce_OneIsToldOfTheOther(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var other = shop.Another();

        var results = await Task.WhenAll(SetAsync(shop, Drift(days: 10)), SetAsync(other, Drift(days: 20)));

        Assert.Equal(1, results.Count(r => r.Value is { Number: 1 }));
        Assert.Equal(1, results.Count(r => r.Error is ChangedMeanwhile { CurrentVersion: 1 }));
        Assert.Equal(1, await shop.CountAsync<RuleSetting>());
    }

    [Fact]
    public void Numbers_OfEveryRule_HoldTheirDefaultAndAreNamed()
    {
        foreach (var rule in RuleRegistry.All)
        {
            Assert.NotEqual(rule.Code, Core.Wording.RuleSentences.Name(rule.Code));
            Assert.NotEqual("", Core.Wording.RuleSentences.LooksAt(rule.Code));
            Assert.All(rule.Numbers, n => Assert.InRange(n.Default, n.Least, n.Most));
            Assert.All(rule.Numbers, n => Assert.NotEqual(n.Name, Core.Wording.RuleSentences.Number(rule.Code, n.Name)));
            Assert.All(rule.Numbers.Where(n => n.IsWhole), n => Assert.Equal(decimal.Truncate(n.Default), n.Default));
        }

        Assert.Contains(RuleRegistry.All, r => r is SuddenChangeRule);
    }

    internal static SetRule Drift(Guid? fluid = null, Guid? sump = null, bool? isOn = null, decimal? days = null, decimal? readings = null, string reason = "Trial", int seen = 0)
    {
        var numbers = new Dictionary<string, decimal>();
        if (days is { } d)
        {
            numbers[DriftRule.HorizonDays] = d;
        }

        if (readings is { } r)
        {
            numbers[DriftRule.LeastReadings] = r;
        }

        return new(Some.Id(), DriftRule.RuleCode, fluid, sump, isOn, numbers, reason, seen);
    }

    private static (decimal Value, RuleLevel From) Number(RuleInForce rule, string name)
    {
        var number = rule.Numbers.Single(n => n.Number.Name == name);
        return (number.Value, number.From);
    }

    private static Task<Result<SetRuleDone>> SetAsync(ShopFixture shop, SetRule command) => shop.Get<SetRuleHandler>().HandleAsync(command, Some.Supervisor, Stop);

    private static async Task<SetRuleDone> DoneAsync(ShopFixture shop, SetRule command) => (await SetAsync(shop, command)).Done();
}
