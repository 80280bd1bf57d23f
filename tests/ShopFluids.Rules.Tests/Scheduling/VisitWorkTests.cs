using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Scheduling;
using ShopFluids.Rules.Shutdowns;

namespace ShopFluids.Rules.Tests.Scheduling;

/// <summary>Today is Wednesday 4 March 2026; the shop is closed on Saturdays and Sundays.</summary>
public sealed class VisitWorkTests
{
    private static readonly ShopCalendar Calendar = Some.Calendar();
    private static readonly DateOnly Today = new(2026, 3, 4);
    private static readonly DateOnly Friday = new(2026, 3, 6);
    private static readonly DateOnly Tuesday = new(2026, 3, 10);

    // Two open days before Tuesday is the Friday before: a closed day is not counted.
    [Theory]
    [InlineData(0, 10)]
    [InlineData(1, 9)]
    [InlineData(2, 6)]
    [InlineData(3, 5)]
    public void Of_WeeklyStep_BeginsSoManyOpenDaysBefore(int window, int day) =>
        Assert.Equal(new DateOnly(2026, 3, day), Of(Tuesday, Some.Step(TaskKind.Skim, IntervalBasis.FromLastDone, intervalDays: 14), window).EarliestDay);

    // Done the day before, a daily test would count for the day before.
    [Theory]
    [InlineData(1, 6)]
    [InlineData(2, 5)]
    [InlineData(3, 4)]
    [InlineData(4, 4)]
    public void Of_ShortInterval_BeginsNoEarlierThanItCounts(int intervalDays, int day) =>
        Assert.Equal(new DateOnly(2026, 3, day), Of(Friday, Some.Step(intervalDays: intervalDays), window: 2).EarliestDay);

    [Fact]
    public void Of_DueLater_LatestIsTheDueDay() => Assert.Equal(Friday, Of(Friday, Some.Step(), window: 2).LatestDay);

    // Late on a Wednesday: today. Late on a Saturday: on Monday, when somebody is there.
    [Theory]
    [InlineData(4, 4)]
    [InlineData(7, 9)]
    public void Of_Late_LatestIsTheNextOpenDay(int today, int expected)
    {
        var work = VisitWork.Of(Task(TaskKind.Skim, new(2026, 3, 3), CareSchedule.CauseOf(Some.StepId)), Some.Step(TaskKind.Skim, IntervalBasis.FromLastDone), 2, Calendar, new(2026, 3, today));

        Assert.Equal(new DateOnly(2026, 3, expected), work.LatestDay);
        Assert.True(work.EarliestDay <= work.LatestDay);
    }

    // The day has been closed since the task was made: the step's policy moves it, an early one not into the past.
    [Theory]
    [InlineData(ClosedDayPolicy.Earlier, 5)]
    [InlineData(ClosedDayPolicy.Later, 9)]
    [InlineData(ClosedDayPolicy.AsIs, 6)]
    public void Of_DueOnADayThatIsClosed_FollowsThePolicyOfItsStep(ClosedDayPolicy policy, int expected)
    {
        var closed = Some.Calendar(closedDays: [Friday]);

        var work = VisitWork.Of(Task(TaskKind.Skim, Friday, CareSchedule.CauseOf(Some.StepId)), Some.Step(TaskKind.Skim, closedDays: policy), 2, closed, Today);

        Assert.Equal(new DateOnly(2026, 3, expected), work.LatestDay);
    }

    [Fact]
    public void Of_WorkOfAFlagOnADayThatIsClosed_ComesEarlier() =>
        Assert.Equal(new DateOnly(2026, 3, 5), VisitWork.Of(Task(TaskKind.Skim, Friday, "limit:tramp-oil"), null, 2, Some.Calendar(closedDays: [Friday]), Today).LatestDay);

    [Theory]
    [InlineData(TaskKind.DrainClean)]
    [InlineData(TaskKind.Dose)]
    [InlineData(TaskKind.ReadSlide)]
    public void Of_WorkThatKeepsItsDay_BeginsOnIt(TaskKind kind)
    {
        var work = Of(Friday, Some.Step(kind, IntervalBasis.FromLastDone, intervalDays: 365), window: 10);

        Assert.Equal((Friday, Friday), (work.EarliestDay, work.LatestDay));
    }

    // Who said that it waits for a part does not want it done with what is due before.
    [Theory]
    [InlineData(false, false)]
    [InlineData(true, true)]
    public void Of_WorkToWhichSomebodyGaveItsDay_BeginsOnIt(bool isChosen, bool isOnIt)
    {
        var work = VisitWork.Of(Task(TaskKind.Skim, Friday, "limit:tramp-oil") with { IsDayChosen = isChosen }, null, 2, Calendar, Today);

        Assert.Equal(isOnIt, work.EarliestDay == Friday);
        Assert.Equal(Friday, work.LatestDay);
    }

    [Fact]
    public void Of_WorkOfAShutdown_BeginsOnItsDayClosedOrNot()
    {
        var saturday = new DateOnly(2026, 3, 7);

        var work = VisitWork.Of(Task(TaskKind.Circulate, saturday, ShutdownWork.DuringOf(Some.Id(5))), null, 10, Calendar, Today);

        Assert.Equal((saturday, saturday), (work.EarliestDay, work.LatestDay));
    }

    // A slide is read when its hours are over, and a step may ask for a closed day: neither is moved to an open one, not even today.
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Of_WorkOfAClosedDayToday_StaysOnIt(bool isSlide)
    {
        var saturday = new DateOnly(2026, 3, 7);
        var step = isSlide ? null : Some.Step(TaskKind.Skim, closedDays: ClosedDayPolicy.AsIs);

        var work = VisitWork.Of(Task(isSlide ? TaskKind.ReadSlide : TaskKind.Skim, saturday, isSlide ? "slide" : CareSchedule.CauseOf(Some.StepId)), step, 0, Calendar, saturday);

        Assert.Equal((saturday, saturday), (work.EarliestDay, work.LatestDay));
    }

    [Fact]
    public void Of_WorkOfAFlag_ComesForwardByTheWindowAlone() =>
        Assert.Equal(Friday, VisitWork.Of(Task(TaskKind.Inspect, Tuesday, "limit:foam"), null, 2, Calendar, Today).EarliestDay);

    [Fact]
    public void Of_WindowBelowZero_IsRefused() =>
        Assert.Equal("windowShopDays", Assert.Throws<ArgumentOutOfRangeException>(() => Of(Friday, Some.Step(), window: -1)).ParamName);

    private static VisitWork Of(DateOnly due, CareStepFacts step, int window) => VisitWork.Of(Task(step.Kind, due, CareSchedule.CauseOf(step.Id)), step, window, Calendar, Today);

    private static OpenTask Task(TaskKind kind, DateOnly due, string cause) => Some.Task(kind, cause, CareSchedule.DueAt(due, Calendar));
}
