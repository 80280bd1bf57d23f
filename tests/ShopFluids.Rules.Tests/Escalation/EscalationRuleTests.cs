using ShopFluids.Rules.Escalation;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Rules.Tests.Escalation;

public sealed class EscalationRuleTests
{
    // Open Monday to Friday; a shop day begins at 06:00 in Berlin. Now is Wednesday 08:00.
    private static readonly ShopCalendar Calendar = Some.Calendar();

    [Theory]
    [InlineData(-1, false)]
    [InlineData(0, true)]
    [InlineData(100_000, true)]
    public void IsDue_WarningOfWednesday_GoesAtTheStartOfFriday(int minutes, bool isDue) =>
        Assert.Equal(isDue, EscalationRule.IsDue(Verdict.Warning, Some.Now, null, Calendar, Calendar.StartOf(new DateOnly(2026, 3, 6)).AddMinutes(minutes)));

    [Theory]
    [InlineData(-1, false)]
    [InlineData(0, true)]
    public void IsDue_WarningOfFriday_GoesAtTheStartOfTuesday(int minutes, bool isDue)
    {
        var raised = Calendar.StartOf(new DateOnly(2026, 3, 6)).AddHours(4);

        Assert.Equal(isDue, EscalationRule.IsDue(Verdict.Warning, raised, null, Calendar, Calendar.StartOf(new DateOnly(2026, 3, 10)).AddMinutes(minutes)));
    }

    [Theory]
    [InlineData(-1, false)]
    [InlineData(0, true)]
    public void IsDue_Action_GoesAfterAShift(int ticks, bool isDue) =>
        Assert.Equal(isDue, EscalationRule.IsDue(Verdict.Action, Some.Now, null, Calendar, (Some.Now + EscalationRule.ActionWithin).AddTicks(ticks)));

    // Raised on Friday night, the eight hours would end on a closed day: they are counted from Monday's start.
    [Theory]
    [InlineData(-1, false)]
    [InlineData(0, true)]
    public void IsDue_ActionBeforeAClosedDay_GoesAShiftIntoTheNextOpenDay(int ticks, bool isDue)
    {
        var raised = Calendar.EndOf(new DateOnly(2026, 3, 6)).AddHours(-1);
        var at = Calendar.StartOf(new DateOnly(2026, 3, 9)) + EscalationRule.ActionWithin;

        Assert.Equal(isDue, EscalationRule.IsDue(Verdict.Action, raised, null, Calendar, at.AddTicks(ticks)));
    }

    [Theory]
    [InlineData(-1, true)]
    [InlineData(0, true)]
    [InlineData(1, false)]
    public void IsDue_SomebodyDidSomething_IsAnsweredOnlyAfterItWasRaised(int ticks, bool isDue) =>
        Assert.Equal(isDue, EscalationRule.IsDue(Verdict.Action, Some.Now, Some.Now.AddTicks(ticks), Calendar, Some.Now.AddDays(20)));

    [Fact]
    public void IsDue_ClockSteppedBackBeforeTheRaising_IsNot() =>
        Assert.False(EscalationRule.IsDue(Verdict.Action, Some.Now, null, Calendar, Some.Now.AddDays(-40)));
}
