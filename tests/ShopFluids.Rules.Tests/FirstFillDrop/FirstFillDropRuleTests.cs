using System.Globalization;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.FirstFillDrop;
using ShopFluids.Rules.Limit;
using ShopFluids.Rules.Shipped;

namespace ShopFluids.Rules.Tests.FirstFillDrop;

/// <summary>DGUV Regel 109-003 (2009/2011), Annex 3, no. 2: a pH more than 0.5 or more than 1.0 under that of the first fill.</summary>
public sealed class FirstFillDropRuleTests
{
    [Theory]
    [InlineData("9.3", Verdict.InRange)]
    [InlineData("9.2", Verdict.InRange)]
    [InlineData("8.71", Verdict.InRange)]
    [InlineData("8.7", Verdict.InRange)]
    [InlineData("8.69", Verdict.Warning)]
    [InlineData("8.2", Verdict.Warning)]
    [InlineData("8.19", Verdict.Action)]
    public void Evaluate_FallFromNinePointTwo_IsOverOnlyBeyondTheLimit(string ph, Verdict verdict) => Assert.Equal(verdict, After(ph).Verdict);

    [Fact]
    public void Evaluate_OverHalf_FlagCarriesItsNumbers()
    {
        var flag = Assert.Single(After("8.6").Raised);

        Assert.Equal((FirstFillDropRule.Code, ParameterCodes.Ph, Verdict.Warning, Direction.Low), (flag.Rule, flag.Parameter, flag.Severity, flag.Direction));
        Assert.Equal(
            new Dictionary<string, decimal>
            {
                [NumberNames.ClearsAt] = 8.8m,
                [NumberNames.Drop] = 0.6m,
                [NumberNames.FirstFill] = 9.2m,
                [NumberNames.Limit] = 0.5m,
                [NumberNames.Value] = 8.6m,
            },
            flag.Numbers);
    }

    // A shop that wants a fall of exactly the limit to count: the flag says so, as the sentence on the sheet has to.
    [Fact]
    public void Raise_EdgeIsBeyond_FlagSaysSo()
    {
        var row = DguvAnnex3.PhDrop.Limits with { EdgeIsBeyond = true };
        var judged = Assert.IsType<Judgement>(LimitRow.Judge(0.5m, row));

        var flag = FirstFillDropRule.Raise(9.2m, 8.7m, judged, row);

        Assert.Equal((Verdict.Warning, 0.5m, 1m), (flag.Severity, flag.Numbers[NumberNames.Drop], flag.Numbers[NumberNames.EdgeIsBeyond]));
    }

    [Fact]
    public void Raise_FallInRange_IsAWrongCall() =>
        Assert.Throws<ArgumentException>(() => FirstFillDropRule.Raise(9.2m, 9.0m, Judgement.InRange, DguvAnnex3.PhDrop.Limits));

    // Nobody knows the first fill's pH any more: the flag stays until somebody does, or the limit is taken away.
    [Theory]
    [InlineData(true, 0)]
    [InlineData(false, 1)]
    public void Evaluate_FirstFillUnknown_LeavesAnOpenFlagAsLongAsThereIsALimit(bool hasLimit, int cleared)
    {
        var standing = Some.Standing(flags: [Some.Flag(FirstFillDropRule.Code, ParameterCodes.Ph, Verdict.Warning, Direction.Low)]);

        Assert.Equal(cleared, Some.Evaluate(Some.Measured(ParameterCodes.Ph, 9m), standing, hasLimit ? DguvAnnex3.PhDrop.Limits : Some.Limits()).Cleared.Count);
    }

    [Fact]
    public void Evaluate_OverHalf_MeasurementNamesTheAllowedFall()
    {
        var judged = Assert.Single(After("8.6").Measurements);

        Assert.Equal((0.5m, LimitBasis.DropFromFirstFill, Direction.Low), (judged.Limit, judged.Basis, judged.Direction));
    }

    [Fact]
    public void Evaluate_FirstFillUnknown_DoesNotJudge() =>
        Assert.Equal(Verdict.NotMeasured, Some.Evaluate(Some.Measured(ParameterCodes.Ph, 7m), Some.Standing(), DguvAnnex3.PhDrop.Limits).Verdict);

    [Theory]
    [InlineData("8.79", 0)]
    [InlineData("8.8", 1)]
    public void Evaluate_OpenFlag_ClearsByTheMargin(string ph, int cleared) => Assert.Equal(cleared, After(ph, Verdict.Warning).Cleared.Count);

    [Theory]
    [InlineData(Verdict.NotMeasured, "8.6", TaskKind.Inspect)]
    [InlineData(Verdict.NotMeasured, "8.1", TaskKind.DrainClean)]
    [InlineData(Verdict.Warning, "8.1", TaskKind.DrainClean)]
    public void Evaluate_Fall_AsksForTheWorkOfThePlan(Verdict before, string ph, TaskKind kind)
    {
        var task = Assert.Single(After(ph, before).NewTasks);

        Assert.Equal((kind, "first-fill-drop:ph"), (task.Kind, task.Cause));
    }

    [Fact]
    public void Evaluate_ValueAndFallBothBeyond_RaisesBoth()
    {
        var evaluation = Some.Evaluate(
            Some.Measured(ParameterCodes.Ph, 8.1m),
            Some.Standing(firstFillPh: 9.2m),
            CommonPractice.Ph.Limits,
            DguvAnnex3.PhDrop.Limits);

        Assert.Equal(["limit", "first-fill-drop"], evaluation.Raised.Select(f => f.Rule));
    }

    private static Evaluation After(string ph, Verdict open = Verdict.NotMeasured) =>
        Some.Evaluate(
            Some.Measured(ParameterCodes.Ph, decimal.Parse(ph, CultureInfo.InvariantCulture)),
            Some.Standing(9.2m, open == Verdict.NotMeasured ? [] : [Some.Flag(FirstFillDropRule.Code, ParameterCodes.Ph, open, Direction.Low)]),
            DguvAnnex3.PhDrop.Limits);
}
