using System.Globalization;
using ShopFluids.Rules.Escalation;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Registry;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Rules.Tests.Escalation;

public sealed class EscalationRuleTests
{
    // Open Monday to Friday; a shop day begins at 06:00 in Berlin. Now is Wednesday 08:00.
    private static readonly ShopCalendar Calendar = Some.Calendar();
    private static readonly TimeSpan Shift = TimeSpan.FromHours(8);

    [Theory]
    [InlineData(-1, false)]
    [InlineData(0, true)]
    [InlineData(100_000, true)]
    public void IsDue_WarningOfWednesday_GoesAtTheStartOfFriday(int minutes, bool isDue) =>
        Assert.Equal(isDue, IsDue(Verdict.Warning, Some.Now, null, Calendar, Calendar.StartOf(new DateOnly(2026, 3, 6)).AddMinutes(minutes)));

    [Theory]
    [InlineData(-1, false)]
    [InlineData(0, true)]
    public void IsDue_WarningOfFriday_GoesAtTheStartOfTuesday(int minutes, bool isDue)
    {
        var raised = Calendar.StartOf(new DateOnly(2026, 3, 6)).AddHours(4);

        Assert.Equal(isDue, IsDue(Verdict.Warning, raised, null, Calendar, Calendar.StartOf(new DateOnly(2026, 3, 10)).AddMinutes(minutes)));
    }

    [Theory]
    [InlineData(-1, false)]
    [InlineData(0, true)]
    public void IsDue_Action_GoesAfterAShift(int ticks, bool isDue) =>
        Assert.Equal(isDue, IsDue(Verdict.Action, Some.Now, null, Calendar, (Some.Now + Shift).AddTicks(ticks)));

    // Raised on Friday night, the eight hours would end on a closed day: they are counted from Monday's start.
    [Theory]
    [InlineData(-1, false)]
    [InlineData(0, true)]
    public void IsDue_ActionBeforeAClosedDay_GoesAShiftIntoTheNextOpenDay(int ticks, bool isDue)
    {
        var raised = Calendar.EndOf(new DateOnly(2026, 3, 6)).AddHours(-1);
        var at = Calendar.StartOf(new DateOnly(2026, 3, 9)) + Shift;

        Assert.Equal(isDue, IsDue(Verdict.Action, raised, null, Calendar, at.AddTicks(ticks)));
    }

    [Theory]
    [InlineData(-1, true)]
    [InlineData(0, true)]
    [InlineData(1, false)]
    public void IsDue_SomebodyDidSomething_IsAnsweredOnlyAfterItWasRaised(int ticks, bool isDue) =>
        Assert.Equal(isDue, IsDue(Verdict.Action, Some.Now, Some.Now.AddTicks(ticks), Calendar, Some.Now.AddDays(20)));

    [Fact]
    public void IsDue_ClockSteppedBackBeforeTheRaising_IsNot() =>
        Assert.False(IsDue(Verdict.Action, Some.Now, null, Calendar, Some.Now.AddDays(-40)));

    // By default Friday 06:00 and Wednesday 16:00.
    [Theory]
    [InlineData(Verdict.Warning, "2026-03-05T05:00:00Z")]
    [InlineData(Verdict.Action, "2026-03-04T09:00:00Z")]
    public void IsDue_NumbersAreTuned_GoesEarlier(Verdict severity, string at)
    {
        var due = Moment(at);
        var tunings = Some.Tuned(EscalationRule.RuleCode, (EscalationRule.WarningShopDays, 1), (EscalationRule.ActionHours, 2));

        Assert.False(IsDue(severity, Some.Now, null, Calendar, due.AddTicks(-1), tunings));
        Assert.True(IsDue(severity, Some.Now, null, Calendar, due, tunings));
    }

    // Berlin changes its clocks on 29 March and 25 October 2026: days begin at 06:00 by the clock on the wall, hours are hours.
    [Theory]
    [InlineData(Verdict.Warning, "2026-03-27T09:00:00Z", "2026-03-31T04:00:00Z")]
    [InlineData(Verdict.Warning, "2026-10-23T08:00:00Z", "2026-10-27T05:00:00Z")]
    [InlineData(Verdict.Action, "2026-03-28T04:00:00Z", "2026-03-30T12:00:00Z")]
    [InlineData(Verdict.Action, "2026-10-24T03:00:00Z", "2026-10-26T13:00:00Z")]
    public void IsDue_OverAClockChange_GoesByTheClockOnTheWall(Verdict severity, string raisedAt, string at)
    {
        var (raised, due) = (Moment(raisedAt), Moment(at));

        Assert.False(IsDue(severity, raised, null, Calendar, due.AddTicks(-1)));
        Assert.True(IsDue(severity, raised, null, Calendar, due));
    }

    [Fact]
    public void IsDue_SwitchedOff_IsNever() =>
        Assert.False(IsDue(Verdict.Action, Some.Now, null, Calendar, Some.Now.AddDays(90), Some.SwitchedOff(EscalationRule.RuleCode)));

    private static DateTime Moment(string text) => DateTime.Parse(text, CultureInfo.InvariantCulture, DateTimeStyles.AdjustToUniversal);

    private static bool IsDue(Verdict severity, DateTime raisedAt, DateTime? answeredAt, ShopCalendar calendar, DateTime now, IReadOnlyDictionary<string, RuleTuning>? tunings = null) =>
        RuleRegistry.Escalation.IsDue(severity, raisedAt, answeredAt, calendar, tunings ?? Some.NoTunings, now);
}
