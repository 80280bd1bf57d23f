using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.InstrumentCheck;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Rules.Tests.InstrumentCheck;

public sealed class InstrumentCheckRuleTests
{
    private static readonly ShopCalendar Calendar = Some.Calendar();
    private static readonly DateOnly Today = new(2026, 3, 4);

    [Theory]
    [InlineData(6, null)]
    [InlineData(7, null)]
    [InlineData(8, InstrumentCheckRule.Lapsed)]
    public void Check_AroundTheDaysThatACheckHolds_LapsesAfterTheLast(int checkedDaysAgo, string? aspect)
    {
        var found = InstrumentCheckRule.Check(new InstrumentFacts(Some.Id(5), Today.AddDays(-checkedDaysAgo), 7), Calendar, Some.Now);

        Assert.Equal(aspect, found?.Aspect);
        Assert.Equal(aspect is null ? null : 8m, found?.Numbers[NumberNames.Days]);
        Assert.Equal(aspect is null ? null : Calendar.EndOf(Today), found?.DueAt);
    }

    [Theory]
    [InlineData(-1, false)]
    [InlineData(0, true)]
    public void Check_AtTheBeginOfTheShopDay_LapsesWithIt(int minutes, bool isFound) =>
        Assert.Equal(isFound, InstrumentCheckRule.Check(new InstrumentFacts(Some.Id(5), Today.AddDays(-8), 7), Calendar, Calendar.StartOf(Today).AddMinutes(minutes)) is not null);

    [Fact]
    public void Check_NoneOnRecord_IsFound() =>
        Assert.Equal(InstrumentCheckRule.Never, InstrumentCheckRule.Check(new InstrumentFacts(Some.Id(5), null, 7), Calendar, Some.Now)?.Aspect);

    [Fact]
    public void Check_CheckedAfterNow_HoldsWhereTheClockSteppedBack() =>
        Assert.Null(InstrumentCheckRule.Check(new InstrumentFacts(Some.Id(5), Today.AddDays(3), 1), Calendar, Some.Now));

    [Fact]
    public void Of_FoundAndKnown_RaisesWhatIsNewOnceAndEndsWhatIsGone()
    {
        var (lapsed, other) = (Find(5, Today.AddDays(-8)), Find(6, Today.AddDays(-9)));
        var known = new KnownFinding(Some.Id(50), lapsed.Rule, lapsed.Aspect, lapsed.SubjectId, Some.Now.AddDays(-1));
        var gone = new KnownFinding(Some.Id(51), InstrumentCheckRule.Code, InstrumentCheckRule.Never, Some.Id(6), Some.Now);

        var changes = FindingChanges.Of([lapsed, other, other], [known, gone], Some.Now);

        Assert.Equal([other], changes.New);
        Assert.Equal([Some.Id(51)], changes.Gone);
        Assert.False(changes.IsEmpty);
    }

    [Fact]
    public void IsEmpty_OnlyNewOrOnlyGone_IsAChange()
    {
        var found = Find(5, Today.AddDays(-8));
        var known = new KnownFinding(Some.Id(50), found.Rule, found.Aspect, found.SubjectId, Some.Now.AddDays(-1));

        Assert.False(FindingChanges.Of([found], [], Some.Now).IsEmpty);
        Assert.False(FindingChanges.Of([], [known], Some.Now).IsEmpty);
        Assert.True(FindingChanges.Of([found], [known], Some.Now).IsEmpty);
    }

    [Fact]
    public void Of_ClockSteppedBackBeforeTheRaising_NothingGoesAway()
    {
        var known = new KnownFinding(Some.Id(51), InstrumentCheckRule.Code, InstrumentCheckRule.Lapsed, Some.Id(6), Some.Now);

        Assert.True(FindingChanges.Of([], [known], Some.Now.AddTicks(-1)).IsEmpty);
        Assert.Equal([Some.Id(51)], FindingChanges.Of([], [known], Some.Now).Gone);
    }

    private static ShopFinding Find(int id, DateOnly checkedOn) =>
        InstrumentCheckRule.Check(new InstrumentFacts(Some.Id(id), checkedOn, 7), Calendar, Some.Now) ?? throw new InvalidOperationException("Not lapsed.");
}
