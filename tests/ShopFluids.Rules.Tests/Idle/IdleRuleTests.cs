using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Idle;
using ShopFluids.Rules.Registry;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Rules.Tests.Idle;

public sealed class IdleRuleTests
{
    // Open Monday to Friday; a shop day begins at 06:00 in Berlin.
    private static readonly ShopCalendar Calendar = Some.Calendar();
    private static readonly DateTime Wednesday = Some.Now;

    // Read on Wednesday; Thursday is the first open day that begins after it, the tenth is Wednesday in two weeks.
    [Theory]
    [InlineData(-1, false)]
    [InlineData(0, true)]
    public void CheckClock_AroundTheTenthOpenDay_IsFlaggedFromItsStart(int minutes, bool isFound)
    {
        var at = Calendar.StartOf(new DateOnly(2026, 3, 18)).AddMinutes(minutes);

        var flag = CheckClock(ReadAt(Wednesday), Calendar, at);

        Assert.Equal(isFound, flag is not null);
        Assert.Equal(isFound ? (Verdict.Warning, "", 10m) : default, flag is null ? default : (flag.Severity, flag.Parameter, flag.Numbers[NumberNames.Days]));
    }

    [Fact]
    public void CheckClock_DaysOfAShutdown_AreNotCounted()
    {
        var closed = Some.Calendar(closedDays: [new(2026, 3, 9), new(2026, 3, 10)]);

        Assert.Null(CheckClock(ReadAt(Wednesday), closed, closed.StartOf(new DateOnly(2026, 3, 20)).AddMinutes(-1)));
        Assert.NotNull(CheckClock(ReadAt(Wednesday), closed, closed.StartOf(new DateOnly(2026, 3, 20))));
    }

    [Fact]
    public void CheckClock_FluidMovedSince_CountsFromThere()
    {
        var standing = ReadAt(Wednesday) with { LastMovedAt = Wednesday.AddDays(7) };

        Assert.Null(CheckClock(standing, Calendar, Wednesday.AddDays(20)));
        Assert.NotNull(CheckClock(standing, Calendar, Wednesday.AddDays(22)));
    }

    [Fact]
    public void CheckClock_NeverReadNorMoved_CountsFromTheFill() => Assert.NotNull(CheckClock(Some.Standing(), Calendar, Wednesday));

    // A test that is planned and not two days late: somebody is expected.
    [Theory]
    [InlineData(-1, true)]
    [InlineData(0, true)]
    [InlineData(1, false)]
    public void CheckClock_ATestIsPlanned_WaitsUntilItIsTwoOpenDaysLate(int minutesAfter, bool isFound)
    {
        var due = Calendar.EndOf(new DateOnly(2026, 3, 31));
        var standing = ReadAt(Wednesday) with { OpenTasks = [Some.Task(TaskKind.Test, CareSchedule.CauseOf(Some.StepId), due.AddMinutes(minutesAfter))] };

        Assert.Equal(isFound, CheckClock(standing, Calendar, due.AddDays(1)) is not null);
    }

    [Fact]
    public void CheckClock_FlaggedAlready_IsNotRaisedAgain()
    {
        var standing = ReadAt(Wednesday) with { OpenFlags = [Some.Flag(IdleRule.RuleCode, "", Verdict.Warning, Direction.None)] };

        Assert.Null(CheckClock(standing, Calendar, Wednesday.AddDays(90)));
    }

    [Fact]
    public void CheckClock_ClockSteppedBackBeforeTheReading_IsNotFlagged() => Assert.Null(CheckClock(ReadAt(Wednesday), Calendar, Wednesday.AddDays(-90)));

    private static StandingFacts ReadAt(DateTime at) => Some.Standing(latest: [(ParameterCodes.Ph, Some.Latest(9, at))]);

    [Theory]
    [InlineData(3, 4, true)]
    [InlineData(3, 3, true)]
    [InlineData(3, 2, false)]
    public void CheckClock_NumberIsTuned_CountsByIt(int allowed, int days, bool isFound)
    {
        var at = Calendar.StartOf(new DateOnly(2026, 3, 4).AddDays(days > 2 ? days + 2 : days));

        Assert.Equal(isFound, CheckClock(ReadAt(Wednesday), Calendar, at, Some.Tuned(IdleRule.RuleCode, (IdleRule.AllowedShopDays, allowed))) is not null);
    }

    [Fact]
    public void CheckClock_SwitchedOff_IsNotFlagged() =>
        Assert.Null(CheckClock(ReadAt(Wednesday), Calendar, Wednesday.AddDays(91), Some.SwitchedOff(IdleRule.RuleCode)));

    // What the program slept through is said on the first open day: nobody is there to circulate.
    [Fact]
    public void CheckClock_ClosedDay_WaitsForTheNextOpenOne()
    {
        Assert.Null(CheckClock(ReadAt(Wednesday), Calendar, Calendar.StartOf(new DateOnly(2026, 3, 23)).AddMinutes(-1)));
        Assert.NotNull(CheckClock(ReadAt(Wednesday), Calendar, Calendar.StartOf(new DateOnly(2026, 3, 23))));
    }

    // A reading ends it. One that is written down late, or that was known when it was raised, was taken before the machine stood.
    [Theory]
    [InlineData(1, true)]
    [InlineData(0, false)]
    [InlineData(-1, false)]
    public void Evaluate_Reading_EndsTheFlagWhenItIsANewSignOfLife(int ticks, bool isCleared)
    {
        var flag = Some.Flag(IdleRule.RuleCode, "", Verdict.Warning, Direction.None);
        var standing = Some.Standing(flags: [flag]) with { LastMovedAt = Wednesday };
        var reading = new ReadingFacts(Some.Id(3), Wednesday.AddTicks(ticks), [Some.Measured(ParameterCodes.Ph, 9)]);

        Assert.Equal(isCleared ? [flag.Id] : [], RulesService.Evaluate(Some.Input(reading, standing)).Cleared);
    }

    // The last of reading, movement and fill.
    [Theory]
    [InlineData(-3, -5, -3)]
    [InlineData(-5, -3, -3)]
    [InlineData(-5, null, -5)]
    [InlineData(-40, -50, -30)]
    public void LastSignOfLife_OfAll_IsTheLatest(int readDay, int? movedDay, int expected)
    {
        var standing = ReadAt(Wednesday.AddDays(readDay)) with { LastMovedAt = movedDay is { } day ? Wednesday.AddDays(day) : null };

        Assert.Equal(Wednesday.AddDays(expected), IdleRule.LastSignOfLife(standing));
    }

    private static RaisedFlag? CheckClock(StandingFacts standing, ShopCalendar calendar, DateTime now, IReadOnlyDictionary<string, RuleTuning>? tunings = null) =>
        RuleRegistry.Idle.CheckClock(standing, calendar, tunings ?? Some.NoTunings, now);
}
