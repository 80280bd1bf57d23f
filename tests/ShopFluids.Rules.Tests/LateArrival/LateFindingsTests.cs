using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.LateArrival;
using ShopFluids.Rules.OverdueTest;
using ShopFluids.Rules.Scheduling;
using ShopFluids.Rules.Shipped;
using ShopFluids.Rules.SuddenChange;

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

    // Odour 2 asks for skimming and for circulating by one hour, fines 2 for a new filter; on the second day there was neither.
    [Fact]
    public void Settle_SeveralTasksEnd_AreWithdrawnInTheSameOrderAlways()
    {
        var standing = Some.Standing(
            flags: [Flag(ParameterCodes.Odour, Verdict.Warning, Direction.High), Flag(ParameterCodes.Fines, Verdict.Warning, Direction.High, 101)],
            tasks: [Some.Task(TaskKind.Circulate, "limit:odour", id: 203), Some.Task(TaskKind.ChangeFilter, "limit:fines", id: 202), Some.Task(TaskKind.Skim, "limit:odour", id: 201)]);

        var settled = Settle(
            Read(2, (ParameterCodes.Odour, 0), (ParameterCodes.Fines, 0)), [Read(1, (ParameterCodes.Odour, 2), (ParameterCodes.Fines, 2)), Read(3, (Percent, 6))], standing);

        Assert.Equal([Some.Id(201), Some.Id(202), Some.Id(203)], settled.WithdrawnTasks);
        Assert.Equal([Some.Id(101), Some.Id(100)], settled.Cleared);
    }

    // What is open differs from what the readings say, with the late one and without it: that is none of its doing.
    [Fact]
    public void Settle_NothingChangesByTheLateReading_LeavesTheOpenFlagAsItIs()
    {
        var settled = Settle(Read(2, (Ph, 9)), [Read(1, (Percent, 4.5m)), Read(3, (ParameterCodes.Foam, 0))], Some.Standing(flags: [Flag(Percent, Verdict.Action, Direction.Low)]));

        Assert.Empty(settled.Raised);
        Assert.Empty(settled.Cleared);
        Assert.Empty(settled.NewTasks);
    }

    // The flag that the late reading raises is open already: on the same side it stays, on the other it gives way.
    [Theory]
    [InlineData(Direction.Low, false)]
    [InlineData(Direction.High, true)]
    public void Settle_OpenFlagIsWhatTheLateReadingRaises_StaysAsItIs(Direction open, bool isChanged)
    {
        var settled = Settle(Read(1, (Percent, 4.5m)), [Read(2, (Percent, 5.1m))], Some.Standing(flags: [Flag(Percent, Verdict.Warning, open)]));

        Assert.Equal(isChanged ? [Direction.Low] : [], settled.Raised.Select(f => f.Direction));
        Assert.Equal(isChanged ? [Some.Id(100)] : [], settled.Cleared);
    }

    // 4.5 % was read when 250 L were there, and the last reading has both: the adjustment gets the recipe of the last.
    [Fact]
    public void Settle_WorkWithARecipe_GetsThatOfTheLastReading()
    {
        var settled = Settle(Read(2, (Percent, 4.5m)), [Read(1.5, (ParameterCodes.Level, 250)), Read(3, (Percent, 5.1m), (ParameterCodes.Level, 240))], Some.Standing());

        Assert.Equal((TaskKind.Adjust, true), Assert.Single(settled.NewTasks.Select(t => (t.Kind, t.FromRecipe))));
        Assert.Equal(60, (settled.Recipe?.WaterLitres + settled.Recipe?.ConcentrateLitres) ?? 0, 6);
    }

    // The late reading is the last of the concentration and asks for no work; its recipe goes by the level that was read after it.
    [Fact]
    public void Settle_ReadingWithARecipeOfItsOwn_KeepsIt()
    {
        var settled = Settle(Read(1, (Percent, 6)), [Read(1.5, (ParameterCodes.Level, 250))], Some.Standing());

        Assert.Empty(settled.NewTasks);
        Assert.NotNull(settled.Recipe);
    }

    // Nine weeks at 9.0 to 9.1, and 8.6 that comes late: against those before it that is a sudden change, and no limit is crossed.
    [Fact]
    public void Settle_RuleThatLooksBack_HasWhatCameBeforeTheLateReading()
    {
        ReadingFacts[] weeks = [.. Enumerable.Range(0, 10).Select(week => Read(7 * (week - 9), (Ph, week % 2 == 0 ? 9.1m : 9.0m)))];

        var settled = Settle(Read(7, (Ph, 8.6m)), [.. weeks, Read(8, (Percent, 6))], Some.Standing());

        Assert.Equal([(SuddenChangeRule.RuleCode, Ph)], settled.Raised.Select(f => (f.Rule, f.Parameter)));
    }

    // The plan asks for skimming on the day after a flag on the concentration, and for it once a week anyway: only the first follows from the late reading.
    [Fact]
    public void Settle_FlagOfTheLateReading_BringsTheStepAfterIt()
    {
        var weekly = Some.Step(TaskKind.Skim);
        var after = Some.Step(TaskKind.Skim, IntervalBasis.AfterFlag, intervalDays: 1, id: Some.Id(901)) with { EventParameter = Percent };

        var settled = Settle(Read(1, (Percent, 4.5m)), [Read(2, (Percent, 5.1m))], Some.Standing(), [weekly, after]);

        Assert.Equal([(TaskKind.Adjust, "limit:concentration"), (TaskKind.Skim, CareSchedule.CauseOf(after.Id))], settled.NewTasks.Select(t => (t.Kind, t.Cause)).Order());
    }

    // 4.5 % was wrong. 6 % instead ends its flag and its work; 4.0 % tells another number, and asks again; 4.5 % again changes nothing.
    [Theory]
    [InlineData(6.0, false, true)]
    [InlineData(4.0, true, true)]
    [InlineData(4.5, false, false)]
    public void Settle_CorrectedReading_TakesBackWhatTheWrongOneRaised(double right, bool isRaised, bool isCleared)
    {
        var wrong = Read(2, (Percent, 4.5m));
        var said = Assert.Single(RulesService.Evaluate(Input(wrong, Some.Standing(), null)).Raised);
        var standing = Some.Standing(
            flags: [new(Some.Id(100), said.Rule, said.Parameter, said.Severity, said.Direction, said.Numbers)],
            tasks: [Some.Task(TaskKind.Adjust, "limit:concentration"), Some.Task(TaskKind.Inspect, "limit:concentration", id: 201)]);

        var settled = Settle(
            Read(2, (Percent, (decimal)right)) with { Id = Some.Id(99) }, [wrong, Read(3, (Ph, 9))], standing, superseded: wrong.Id, led: [Some.Id(100), Some.Id(200)]);

        Assert.Equal(isRaised ? [(decimal)right] : [], settled.Raised.Select(f => f.Numbers[NumberNames.Value]));
        Assert.Equal(isCleared ? [Some.Id(100)] : [], settled.Cleared);
        Assert.Equal(isRaised ? [TaskKind.Adjust] : [], settled.NewTasks.Select(t => t.Kind));
        Assert.Equal(isRaised ? [Some.Id(200)] : isCleared ? [Some.Id(200), Some.Id(201)] : [], settled.WithdrawnTasks);
        Assert.Empty(settled.DoneTasks);
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
        ReadingFacts late,
        ReadingFacts[] known,
        StandingFacts standing,
        CareStepFacts[]? plan = null,
        OpenTask[]? firsts = null,
        ClosedByHand? closed = null,
        Guid? superseded = null,
        Guid[]? led = null)
    {
        var latest = known.SelectMany(r => r.Measurements.Select(m => (m.Parameter, Value: Some.Latest(m.Value, r.TakenAt)))).GroupBy(l => l.Parameter).ToDictionary(g => g.Key, g => g.Last().Value);
        var input = Input(late, standing with { Latest = latest }, plan) with { History = new([.. known.Where(r => r.TakenAt < late.TakenAt)], []) };
        var @case = new LateCase(input, [.. known.Select(r => Input(r, Some.Standing(), plan))], [], firsts ?? [], 400, 183)
        {
            Closed = closed is null ? [] : [closed],
            Superseded = superseded,
            Led = (led ?? []).ToHashSet(),
        };
        return LateFindings.Settle(@case, RulesService.Evaluate(input));
    }

    private static EvaluationInput Input(ReadingFacts reading, StandingFacts standing, CareStepFacts[]? plan) => Some.Input(reading, standing, Limits, plan, Calendar, Now);

    private static OpenFlag Flag(string parameter, Verdict severity, Direction side, int id = 100) => Some.Flag("limit", parameter, severity, side, id);

    private static ReadingFacts Read(double day, params (string Parameter, decimal Value)[] values) =>
        new(Some.Id((int)(10 * day)), Some.Now.AddDays(day), [.. values.Select(v => Some.Measured(v.Parameter, v.Value))]);
}
