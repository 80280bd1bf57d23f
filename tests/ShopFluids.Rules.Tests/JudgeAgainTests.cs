using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Judging;
using ShopFluids.Rules.Limit;
using ShopFluids.Rules.Shipped;

namespace ShopFluids.Rules.Tests;

/// <summary>A stored reading judged again, by other limits than then. It is no visit: no test is done by it, nothing of the plan falls due.</summary>
public sealed class JudgeAgainTests
{
    private static readonly HashSet<(string Rule, string Parameter)> NoneClosed = [];

    private static readonly ParameterLimits[] Limits = [.. ShippedLimits.Default(5m, 8m).Select(l => l.Limits)];

    [Fact]
    public void JudgeAgain_LimitMovedPastTheValue_RaisesAndAsksForItsWork()
    {
        var input = Some.Input(Some.Reading(Some.Measured(ParameterCodes.Concentration, 5.4m), Some.Measured(ParameterCodes.Level, 200)), limits: [Some.Limits(warningLow: 5.5m)], plan: [Some.Step()]);

        var second = RulesService.JudgeAgain(input, NoneClosed);

        Assert.Equal((LimitRule.Code, Verdict.Warning, Direction.Low), Assert.Single(second.Raised.Select(f => (f.Rule, f.Severity, f.Direction))));
        Assert.Equal((TaskKind.Adjust, "limit:concentration", true), Assert.Single(second.NewTasks.Select(t => (t.Kind, t.Cause, t.FromRecipe))));
        Assert.NotNull(second.Recipe);
        Assert.Empty(second.Cleared);
        Assert.Empty(second.WithdrawnTasks);
    }

    [Fact]
    public void JudgeAgain_LimitMovedAway_EndsTheFlagAndItsWork()
    {
        var standing = Some.Standing(
            flags: [Some.Flag(LimitRule.Code, ParameterCodes.Concentration, Verdict.Warning, Direction.Low)],
            tasks: [Some.Task(TaskKind.Adjust, "limit:concentration"), Some.Task(TaskKind.Skim, "limit:tramp-oil", id: 201)]);

        var second = RulesService.JudgeAgain(Some.Input(Some.Reading(Some.Measured(ParameterCodes.Concentration, 5.4m)), standing), NoneClosed);

        Assert.Equal([Some.Id(100)], second.Cleared);
        Assert.Equal([Some.Id(200)], second.WithdrawnTasks);
        Assert.Empty(second.Raised);
        Assert.Empty(second.NewTasks);
    }

    // The flag stands as it did. Its second look is still to come, and what was done about it is not asked for again.
    [Theory]
    [InlineData(ParameterCodes.Ph, 8.4, Direction.Low, TaskKind.Test)]
    [InlineData(ParameterCodes.TrampOil, 20, Direction.High, null)]
    public void JudgeAgain_NothingChanged_ChangesNothing(string parameter, double value, Direction side, TaskKind? open)
    {
        var standing = Some.Standing(
            flags: [Some.Flag(LimitRule.Code, parameter, Verdict.Warning, side)],
            tasks: open is { } kind ? [Some.Task(kind, $"limit:{parameter}")] : []);

        var second = RulesService.JudgeAgain(Some.Input(Some.Reading(Some.Measured(parameter, (decimal)value)), standing, Limits, [Some.Step(parameters: [parameter])]), NoneClosed);

        Assert.Equal((0, 0, 0, 0), (second.Raised.Count, second.Cleared.Count, second.NewTasks.Count, second.WithdrawnTasks.Count));
    }

    // The draining hung on the smell, whose limit is gone. The slide, which nobody read again, still wants it.
    [Fact]
    public void JudgeAgain_SharedWorkGoesWithOneFlag_TheOtherTakesItOver()
    {
        var standing = Some.Standing(
            flags: [Some.Flag(LimitRule.Code, ParameterCodes.Odour, Verdict.Action, Direction.High), Some.Flag(LimitRule.Code, ParameterCodes.Bacteria, Verdict.Action, Direction.High, 101)],
            tasks: [Some.Task(TaskKind.DrainClean, "limit:odour")]);

        var second = RulesService.JudgeAgain(Some.Input(Some.Reading(Some.Measured(ParameterCodes.Odour, 3m)), standing, [.. Limits.Where(l => l.Parameter != ParameterCodes.Odour)]), NoneClosed);

        Assert.Equal([Some.Id(200)], second.WithdrawnTasks);
        Assert.Equal((TaskKind.DrainClean, "limit:bacteria"), Assert.Single(second.NewTasks.Select(t => (t.Kind, t.Cause))));
    }

    [Fact]
    public void JudgeAgain_WarningIsActionNow_GivesWayToTheWorseFlag()
    {
        var standing = Some.Standing(flags: [Some.Flag(LimitRule.Code, ParameterCodes.Bacteria, Verdict.Warning, Direction.High)], tasks: [Some.Task(TaskKind.Inspect, "limit:bacteria")]);

        var second = RulesService.JudgeAgain(Some.Input(Some.Reading(Some.Measured(ParameterCodes.Bacteria, 5m)), standing, [Some.Limits(ParameterCodes.Bacteria, null, null, 4m, 5m, edgeIsBeyond: true, clearMargin: 0m)]), NoneClosed);

        Assert.Equal([Some.Id(100)], second.Cleared);
        Assert.Equal([Some.Id(200)], second.WithdrawnTasks);
        Assert.Equal(Verdict.Action, Assert.Single(second.Raised).Severity);
        Assert.Equal(TaskKind.DrainClean, Assert.Single(second.NewTasks).Kind);
    }

    // A supervisor closed the flag for which the sump was to be drained: the adjusting that is open must not go for it.
    [Theory]
    [InlineData(true, 0)]
    [InlineData(false, 1)]
    public void JudgeAgain_FlagThatDrainsWasClosed_LeavesTheAdjusting(bool isClosed, int withdrawn)
    {
        var standing = Some.Standing(flags: [Some.Flag(LimitRule.Code, ParameterCodes.Concentration, Verdict.Action, Direction.Low)], tasks: [Some.Task(TaskKind.Adjust, "limit:concentration")]);
        HashSet<(string, string)> closed = isClosed ? [(LimitRule.Code, ParameterCodes.Odour)] : [];

        var second = RulesService.JudgeAgain(Some.Input(Some.Reading(Some.Measured(ParameterCodes.Odour, 3m)), standing, Limits), closed);

        Assert.Equal(withdrawn, second.WithdrawnTasks.Count);
        Assert.Equal(withdrawn, second.Raised.Count);
    }

    // The limits say no longer that it is to be drained.
    [Fact]
    public void JudgeAgain_NoLongerToBeDrained_AsksForTheAdjustingThatWaited()
    {
        var standing = Some.Standing(
            flags: [Some.Flag(LimitRule.Code, ParameterCodes.Odour, Verdict.Action, Direction.High), Some.Flag(LimitRule.Code, ParameterCodes.Concentration, Verdict.Action, Direction.Low, 101)],
            tasks: [Some.Task(TaskKind.DrainClean, "limit:odour")]);

        var second = RulesService.JudgeAgain(Some.Input(Some.Reading(Some.Measured(ParameterCodes.Odour, 3m)), standing, [.. Limits.Where(l => l.Parameter != ParameterCodes.Odour)]), NoneClosed);

        Assert.Equal((TaskKind.Adjust, "limit:concentration"), Assert.Single(second.NewTasks.Select(t => (t.Kind, t.Cause))));
    }

    // Nobody asks to drain it any more. What was asked for and done for the slide is not asked for again with that.
    [Fact]
    public void JudgeAgain_NoLongerToBeDrained_AsksForNothingElse()
    {
        var standing = Some.Standing(
            flags: [Some.Flag(LimitRule.Code, ParameterCodes.Odour, Verdict.Action, Direction.High), Some.Flag(LimitRule.Code, ParameterCodes.Bacteria, Verdict.Warning, Direction.High, 101)],
            tasks: [Some.Task(TaskKind.DrainClean, "limit:odour")]);
        var reading = Some.Reading(Some.Measured(ParameterCodes.Odour, 3m), Some.Measured(ParameterCodes.Bacteria, 4m));

        var second = RulesService.JudgeAgain(Some.Input(reading, standing, [Some.Limits(ParameterCodes.Bacteria, null, null, 4m, 5m, edgeIsBeyond: true, clearMargin: 0m)]), NoneClosed);

        Assert.Equal([Some.Id(200)], second.WithdrawnTasks);
        Assert.Empty(second.Raised);
        Assert.Empty(second.NewTasks);
    }

    // One of two flags for which it was to be drained is gone.
    [Theory]
    [InlineData(false, true)]
    [InlineData(true, false)]
    public void IsSparedTheDrain_AFlagThatDrainsIsCleared_UnlessAnotherAsksForIt(bool mustDrain, bool isSpared) =>
        Assert.Equal(isSpared, new FlagChanges([], [Some.Flag(LimitRule.Code, ParameterCodes.Odour, Verdict.Action, Direction.High)], []) { MustDrain = mustDrain }.IsSparedTheDrain);

    [Theory]
    [InlineData(ParameterCodes.Odour, Verdict.Action, "limit:level")]
    [InlineData(ParameterCodes.Odour, Verdict.Warning, null)]
    [InlineData(ParameterCodes.Nitrite, Verdict.Action, null)]
    public void WorkOfASparedSump_ClosedFlag_AsksForTheWorstThatWaitedForTheDraining(string parameter, Verdict severity, string? cause)
    {
        OpenFlag[] left = [Some.Flag(LimitRule.Code, ParameterCodes.Concentration, Verdict.Warning, Direction.Low, 101), Some.Flag(LimitRule.Code, ParameterCodes.Level, Verdict.Action, Direction.Low, 102)];

        ProposedTask? Asked(OpenFlag[] flags, params OpenTask[] open) =>
            RulesService.WorkOfASparedSump(Some.Flag(LimitRule.Code, parameter, severity, Direction.High), flags, open, Some.Calendar(), Some.Now);

        Assert.Equal(cause, Asked(left)?.Cause);
        Assert.Null(Asked(left, Some.Task(TaskKind.Adjust, "limit:concentration")));
        Assert.Null(Asked([.. left, Some.Flag(LimitRule.Code, ParameterCodes.Bacteria, Verdict.Action, Direction.High, 103)]));
        Assert.Null(Asked([]));
    }
}
