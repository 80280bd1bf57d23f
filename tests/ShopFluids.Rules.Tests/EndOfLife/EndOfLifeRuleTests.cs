using ShopFluids.Rules.EndOfLife;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Registry;
using ShopFluids.Rules.Tests.Course;

namespace ShopFluids.Rules.Tests.EndOfLife;

public sealed class EndOfLifeRuleTests
{
    private static readonly EndOfLifeRule Rule = new();

    // Filled at 800 µS/cm: the flag comes at two and a half times that, 2000, in two readings in a row.
    [Theory]
    [InlineData(1999, 2400, false)]
    [InlineData(2000, 1999, false)]
    [InlineData(2000, 2000, true)]
    [InlineData(2600, 2600, true)]
    public void Check_SaltsBuildUp_IsFlaggedAfterTwoReadings(int before, int now, bool isFound)
    {
        var charge = new Charge(Rule).Reads(ParameterCodes.Conductivity, 790, 800, 810, 1200, before, now);

        Assert.Equal(isFound, charge.Open is not null);
    }

    [Fact]
    public void Check_SaltsBuildUp_CarriesHowManyTimesAndTheAge()
    {
        var flag = new Charge(Rule).Reads(ParameterCodes.Chloride, 40, 40, 42, 120, 128).Open;

        Assert.Equal((3.0m, 28m, 14m), (flag?.Numbers[NumberNames.SaltTimes], flag?.Numbers[NumberNames.Days], flag?.Numbers[NumberNames.WithinDays]));
    }

    [Fact]
    public void Check_TwoEarlierValues_AreTooFewToTellTheFill() =>
        Assert.Null(new Charge(Rule).Reads(ParameterCodes.Conductivity, 400, 400, 2000).Open);

    // A part of the fluid was exchanged: what is well under it clears, a little under it does not.
    [Theory]
    [InlineData(1900, true)]
    [InlineData(1830, false)]
    public void Check_SaltsFall_ClearsByAMargin(int value, bool isOpen)
    {
        var charge = new Charge(Rule).Reads(ParameterCodes.Conductivity, 800, 800, 800, 2100, 2100);

        charge.Reads(ParameterCodes.Conductivity, value);

        Assert.Equal(isOpen, charge.Open is not null);
    }

    // Daily readings push the fill out of sight: 1900 is then the first that is seen, and 2100 would be little more than it.
    [Theory]
    [InlineData(2100, true)]
    [InlineData(1830, false)]
    public void Check_FirstValuesAreOutOfSight_JudgesByThoseOfTheFlag(int value, bool isKept)
    {
        var open = Some.Flag(EndOfLifeRule.RuleCode, "", Verdict.Warning, Direction.None) with { Numbers = new Dictionary<string, decimal> { ["first:conductivity"] = 800 } };
        var past = Enumerable.Range(1, 5).Select(n => new ReadingFacts(Some.Id(960 + n), Some.Now.AddDays(-n), [Some.Measured(ParameterCodes.Conductivity, 1900 + value - 2100)])).Reverse().ToList();

        var opinion = Assert.Single(Rule.Check(Case(100, [Some.Measured(ParameterCodes.Conductivity, value)], past, open: open)));

        Assert.Equal(isKept, opinion.Flag is not null);
    }

    // Old, or pH down, or bacteria back three times: each of them alone is care; two together are the end.
    [Theory]
    [InlineData(364, 8.6, 2, false)]
    [InlineData(365, 8.6, 2, false)]
    [InlineData(364, 8.5, 2, false)]
    [InlineData(364, 8.6, 3, false)]
    [InlineData(365, 8.5, 2, true)]
    [InlineData(364, 8.5, 3, true)]
    [InlineData(365, 8.6, 3, true)]
    [InlineData(365, 8.5, 3, true)]
    public void Check_Signs_TwoTogetherAreFlagged(int days, double ph, int comebacks, bool isFound)
    {
        var opinion = Assert.Single(Judge(days, (decimal)ph, comebacks));

        Assert.Equal(isFound, opinion.Flag is { Severity: Verdict.Warning, Direction: Direction.None, Parameter: "" });
        Assert.Equal(isFound, opinion.Flag is not null);
        Assert.Equal(isFound && ph < 8.6, opinion.Flag?.Numbers.ContainsKey(NumberNames.Drop) ?? false);
        Assert.Equal(isFound && comebacks >= 3, opinion.Flag?.Numbers.ContainsKey(NumberNames.Comebacks) ?? false);
    }

    [Fact]
    public void Check_OneLowPhAfterAGoodOne_IsNoSign() => Assert.Null(Assert.Single(Judge(400, 8.5m, 0, phBefore: 8.9m)).Flag);

    [Fact]
    public void Check_OnlyALevelWasRead_LeavesTheFlagAsItIs() =>
        Assert.Empty(Rule.Check(Case(400, [Some.Measured(ParameterCodes.Level, 200)], [])));

    [Fact]
    public void Check_NumbersAreTuned_JudgesByThem()
    {
        var tunings = Some.Tuned(EndOfLifeRule.RuleCode, (EndOfLifeRule.OldDays, 90), (EndOfLifeRule.PhFall, 0.3m), (EndOfLifeRule.WithinDays, 7));

        var flag = Assert.Single(Judge(90, 8.7m, 0, phBefore: 8.7m, tunings: tunings)).Flag;

        Assert.Equal((90m, 0.3m, 7m), (flag?.Numbers[NumberNames.Days], flag?.Numbers[NumberNames.Drop], flag?.Numbers[NumberNames.WithinDays]));
        Assert.Equal(TimeSpan.FromDays(7), Rule.WorkWithin(flag ?? throw new InvalidOperationException("There is no flag.")));
    }

    [Fact]
    public void Evaluate_Flagged_AsksToDrainWithinItsDays()
    {
        var input = Case(400, [Some.Measured(ParameterCodes.Ph, 8.4m)], Past(8.4m, 0)).Input;

        var task = Assert.Single(RulesService.Evaluate(input with { Limits = [] }).NewTasks, t => t.Cause == "end-of-life:");

        Assert.Equal((TaskKind.DrainClean, Some.Calendar().EndOf(Some.Calendar().ShopDayOf(Some.Now.AddDays(14)))), (task.Kind, task.DueAt));
    }

    [Fact]
    public void Evaluate_SwitchedOff_EndsTheFlag()
    {
        var open = Some.Flag(EndOfLifeRule.RuleCode, "", Verdict.Warning, Direction.None);
        var input = Case(400, [Some.Measured(ParameterCodes.Ph, 8.4m)], Past(8.4m, 0), Some.SwitchedOff(EndOfLifeRule.RuleCode), open).Input;

        Assert.Contains(open.Id, RulesService.Evaluate(input).Cleared);
    }

    private static List<RuleOpinion> Judge(int days, decimal ph, int comebacks, decimal? phBefore = null, IReadOnlyDictionary<string, RuleTuning>? tunings = null) =>
        [.. Rule.Check(Case(days, [Some.Measured(ParameterCodes.Ph, ph)], Past(phBefore ?? ph, comebacks), tunings))];

    private static RuleCase Case(int days, MeasurementFacts[] measured, IReadOnlyList<ReadingFacts> past, IReadOnlyDictionary<string, RuleTuning>? tunings = null, OpenFlag? open = null)
    {
        var standing = Some.Standing(flags: open is null ? [] : [open]) with { FilledAt = Some.Now.AddDays(-days), FirstFillPh = 9.0m };
        var input = Some.Input(new ReadingFacts(Some.Id(900), Some.Now, measured), standing) with { History = new(past, []), Tunings = tunings ?? Some.NoTunings };
        return new(input, Rule);
    }

    // Slides that were good, then over the line, so many times; and a pH.
    private static List<ReadingFacts> Past(decimal ph, int comebacks)
    {
        var past = new List<ReadingFacts>();
        for (var n = 0; n < comebacks; n++)
        {
            past.Add(new(Some.Id(910 + (2 * n)), Some.Now.AddDays(-60 + (2 * n)), [Some.Measured(ParameterCodes.Bacteria, 3)]));
            past.Add(new(Some.Id(911 + (2 * n)), Some.Now.AddDays(-59 + (2 * n)), [Some.Measured(ParameterCodes.Bacteria, 5)]));
        }

        past.Add(new(Some.Id(950), Some.Now.AddDays(-7), [Some.Measured(ParameterCodes.Ph, ph)]));
        return past;
    }
}
