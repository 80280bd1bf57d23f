using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.LateArrival;
using ShopFluids.Rules.OverdueTest;
using ShopFluids.Rules.Scheduling;
using ShopFluids.Rules.Shipped;

namespace ShopFluids.Rules.Tests.LateArrival;

/// <summary>
/// What one late reading changes, told one by one. Concentration warns under 5 % and clears at 5.2, acts under 3 and clears at 3.2; pH warns under 8.5 and
/// clears at 8.6. It is judged nine days after <see cref="Some.Now"/>.
/// </summary>
public sealed class LateFindingsTests
{
    private const string Percent = ParameterCodes.Concentration;
    private const string Ph = ParameterCodes.Ph;
    private static readonly DateTime Now = Some.Now.AddDays(9);
    private static readonly ShopCalendar Calendar = Some.Calendar();
    private static readonly ParameterLimits[] Limits = [.. ShippedLimits.Default(5m, 8m).Select(l => l.Limits)];

    // 4.5 % was read before the 5.1 % that is known, and 5.1 % does not clear it: the flag is open, with its work. Without a level nobody knows how much to add.
    [Fact]
    public void Settle_FlagOfTheLateReadingStillHolds_AsksForItsWork()
    {
        var settled = Settle(Read(1, (Percent, 4.5m)), [Read(2, (Percent, 5.1m))], Some.Standing(tasks: [Some.Task(TaskKind.Skim, "limit:tramp-oil")]));

        Assert.Equal(("limit", Percent, Verdict.Warning), Assert.Single(settled.Raised.Select(f => (f.Rule, f.Parameter, f.Severity))));
        Assert.Equal((TaskKind.Adjust, "limit:concentration", false), Assert.Single(settled.NewTasks.Select(t => (t.Kind, t.Cause, t.FromRecipe))));
        Assert.Null(settled.Recipe);
        Assert.Empty(settled.Cautions);
        Assert.Empty(settled.Cleared);
        Assert.Null(settled.NextTestDueAt);
    }

    // By the rule, then by the parameter; the work by its due time, its kind and its cause. What it warns of stands beside it.
    [Fact]
    public void Settle_SeveralFlags_AreRaisedInTheSameOrderAlways()
    {
        var settled = Settle(
            Read(1, (ParameterCodes.TrampOil, 20), (ParameterCodes.Fines, 3), (Percent, 4.5m), (ParameterCodes.Odour, 3)),
            [Read(2, (ParameterCodes.Odour, 3), (ParameterCodes.Fines, 3), (Percent, 5.1m), (ParameterCodes.TrampOil, 9))],
            Some.Standing(flags: [Flag(ParameterCodes.Odour, Verdict.Action, Direction.High), Flag(ParameterCodes.Fines, Verdict.Action, Direction.High, 101)], tasks: [Some.Task(TaskKind.DrainClean, "limit:odour"), Some.Task(TaskKind.ChangeFilter, "limit:fines", id: 201)]));

        Assert.Equal(["concentration", "tramp-oil"], settled.Raised.Select(f => f.Parameter));
        // The draining that the smell asks for answers the concentration.
        Assert.Equal([(TaskKind.Skim, "limit:tramp-oil")], settled.NewTasks.Select(t => (t.Kind, t.Cause)));
        Assert.Contains(Caution.ResidualCurrent, settled.Cautions);
    }

    // 8.4 was found again on the second day: the second look is done, and the cause is looked for. 9.0 instead ends the flag.
    [Theory]
    [InlineData(8.4, false, new[] { TaskKind.Inspect })]
    [InlineData(9.0, true, new TaskKind[0])]
    public void Settle_SecondLookThatArrivesLate_IsDone(double ph, bool isCleared, TaskKind[] asked)
    {
        var standing = Some.Standing(flags: [Flag(Ph, Verdict.Warning, Direction.Low)], tasks: [Some.Task(TaskKind.Test, "limit:ph")]);

        var settled = Settle(Read(2, (Ph, (decimal)ph)), [Read(1, (Ph, 8.4m)), Read(3, (Percent, 6))], standing);

        Assert.Equal([Some.Id(200)], settled.DoneTasks);
        Assert.Empty(settled.WithdrawnTasks);
        Assert.Equal(isCleared ? [Some.Id(100)] : [], settled.Cleared);
        Assert.Equal(asked, settled.NewTasks.Select(t => t.Kind));
    }

    // 6.5 % between 4.5 and 5.1 % had ended the flag: its adjustment is withdrawn, and not done. Other work stays.
    [Fact]
    public void Settle_FlagEndsByTheLateReading_ItsWorkIsWithdrawn()
    {
        var standing = Some.Standing(
            flags: [Flag(Percent, Verdict.Warning, Direction.Low)],
            tasks: [Some.Task(TaskKind.Adjust, "limit:concentration"), Some.Task(TaskKind.Inspect, "limit:concentration", id: 201), Some.Task(TaskKind.Skim, "step:x", id: 202)]);

        var settled = Settle(Read(2, (Percent, 6.5m)), [Read(1, (Percent, 4.5m)), Read(3, (Percent, 5.1m))], standing);

        Assert.Equal([Some.Id(100)], settled.Cleared);
        Assert.Equal([Some.Id(200), Some.Id(201)], settled.WithdrawnTasks);
        Assert.Empty(settled.DoneTasks);
        Assert.Empty(settled.NewTasks);
    }

    // The weekly pH of the 4th was read on the 5th of March and is entered on the 13th: the test that stood as late is done, the next is planned, and nothing is late any more.
    [Theory]
    [InlineData(18, true)]
    [InlineData(9, false)]
    public void Settle_TestOfThePlanThatArrivesLate_IsDoneAndTheNextIsPlanned(int otherDueInDays, bool isCleared)
    {
        var step = Some.Step(parameters: [Ph], anchor: new(2026, 3, 11));
        var open = Some.Task(TaskKind.Test, CareSchedule.CauseOf(step.Id), CareSchedule.DueAt(new(2026, 3, 11), Calendar));
        var other = Some.Task(TaskKind.Test, "step:other", Some.Now.AddDays(otherDueInDays), 201);
        var standing = Some.Standing(flags: [Some.Flag(OverdueTestRule.Code, "", Verdict.Warning, Direction.None)], tasks: [open, other, Some.Task(TaskKind.Skim, "step:x", Some.Now, 202)]);

        var settled = Settle(Read(6, (Ph, 9)), [Read(7, (Percent, 6))], standing, [step], [open]);

        var next = CareSchedule.DueAt(new(2026, 3, 18), Calendar);
        Assert.Equal([open.Id], settled.DoneTasks);
        Assert.Equal((TaskKind.Test, open.Cause, next), Assert.Single(settled.NewTasks.Select(t => (t.Kind, t.Cause, t.DueAt))));
        Assert.Equal(isCleared ? [Some.Id(100)] : [], settled.Cleared);
        Assert.Equal(isCleared ? next : other.DueAt, settled.NextTestDueAt);
    }

    // A supervisor who closed it, as bad or worse, when it had last been read or later, had the last word.
    [Theory]
    [InlineData("limit", Percent, Verdict.Warning, 0, false)]
    [InlineData("limit", Percent, Verdict.Action, 1, false)]
    [InlineData("limit", Percent, Verdict.Warning, -1, true)]
    [InlineData("drift", Percent, Verdict.Warning, 0, true)]
    [InlineData("limit", Ph, Verdict.Warning, 0, true)]
    [InlineData("limit", Percent, Verdict.InRange, 0, true)]
    public void Settle_ClosedByHand_IsNotRaisedAgain(string rule, string parameter, Verdict severity, int ticks, bool isRaised)
    {
        var closed = new ClosedByHand(rule, parameter, severity, Some.Now.AddDays(2).AddTicks(ticks));

        var settled = Settle(Read(1, (Percent, 4.5m)), [Read(2, (Percent, 5.1m))], Some.Standing(), closed: closed);

        Assert.Equal(isRaised, settled.Raised.Any(f => f.Rule == "limit"));
        Assert.Equal(isRaised, settled.NewTasks.Any(t => t.Cause == "limit:concentration"));
    }

    // A person has closed the flag of the third day. Only something worse raises it again: not the same, and not what is less bad.
    [Theory]
    [InlineData(4.6, 4.5, null)]
    [InlineData(2.9, 3.1, Verdict.Action)]
    public void Settle_FlagThatAPersonClosed_IsRaisedAgainForSomethingWorse(double late, double known, Verdict? raised)
    {
        var settled = Settle(Read(2, (Percent, (decimal)late)), [Read(3, (Percent, (decimal)known))], Some.Standing());

        Assert.Equal(raised, settled.Raised.SingleOrDefault(f => f.Rule == "limit")?.Severity);
    }

    [Fact]
    public void Settle_FlagThatAPersonClosed_IsNotRaisedAgainForSomethingBetter()
    {
        var settled = Settle(Read(2.5, (Percent, 4.0m)), [Read(2, (Percent, 2.9m)), Read(3, (Percent, 3.1m))], Some.Standing());

        Assert.DoesNotContain(settled.Raised, f => f.Rule == "limit");
        Assert.Empty(settled.Cleared);
        Assert.Empty(settled.NewTasks);
    }

    // The same two readings while the flag is open: action gives way to the warning that it would have been.
    [Fact]
    public void Settle_OpenFlagWouldHaveBeenAnother_GivesWayToIt()
    {
        var standing = Some.Standing(flags: [Flag(Percent, Verdict.Action, Direction.Low)], tasks: [Some.Task(TaskKind.Adjust, "limit:concentration")]);

        var settled = Settle(Read(2.5, (Percent, 4.0m)), [Read(2, (Percent, 2.9m)), Read(3, (Percent, 3.1m))], standing);

        Assert.Equal([Some.Id(100)], settled.Cleared);
        Assert.Equal(Verdict.Warning, Assert.Single(settled.Raised, f => f.Rule == "limit").Severity);
        Assert.Empty(settled.WithdrawnTasks);
    }

    private static Evaluation Settle(
        ReadingFacts late, ReadingFacts[] known, StandingFacts standing, CareStepFacts[]? plan = null, OpenTask[]? firsts = null, ClosedByHand? closed = null)
    {
        var latest = known.SelectMany(r => r.Measurements.Select(m => (m.Parameter, Value: Some.Latest(m.Value, r.TakenAt)))).GroupBy(l => l.Parameter).ToDictionary(g => g.Key, g => g.Last().Value);
        var input = Input(late, standing with { Latest = latest }, plan) with { History = new([.. known.Where(r => r.TakenAt < late.TakenAt)], []) };
        var @case = new LateCase(input, [.. known.Select(r => Input(r, Some.Standing(), plan))], [], firsts ?? [], 400, 183) { Closed = closed is null ? [] : [closed] };
        return LateFindings.Settle(@case, RulesService.Evaluate(input));
    }

    private static EvaluationInput Input(ReadingFacts reading, StandingFacts standing, CareStepFacts[]? plan) => Some.Input(reading, standing, Limits, plan, Calendar, Now);

    private static OpenFlag Flag(string parameter, Verdict severity, Direction side, int id = 100) => Some.Flag("limit", parameter, severity, side, id);

    private static ReadingFacts Read(double day, params (string Parameter, decimal Value)[] values) =>
        new(Some.Id((int)(10 * day)), Some.Now.AddDays(day), [.. values.Select(v => Some.Measured(v.Parameter, v.Value))]);
}
