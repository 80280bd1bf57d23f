using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Lot;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Rules.Tests.Lot;

public sealed class LotRuleTests
{
    private static readonly ShopCalendar Calendar = Some.Calendar();
    private static readonly DateOnly Today = new(2026, 3, 4);

    // The last day itself is still good.
    [Theory]
    [InlineData(1, false)]
    [InlineData(0, false)]
    [InlineData(-1, true)]
    public void Check_AroundTheLastDay_IsExpiredFromTheDayAfter(int expiresInDays, bool isFound)
    {
        var found = LotRule.Check(Lot() with { ExpiresOn = Today.AddDays(expiresInDays) }, Calendar, Some.Now).ToList();

        Assert.Equal(isFound ? [LotRule.Expired] : [], found.Select(f => f.Aspect));
        Assert.All(found, f => Assert.Equal((LotRule.Code, Some.Id(7), Verdict.Warning, 12m, 1m), (f.Rule, f.SubjectId, f.Severity, f.Numbers[NumberNames.RemainingLitres], f.Numbers[NumberNames.Days])));
    }

    // Wednesday 05:59 in Berlin still belongs to Tuesday's shop day.
    [Theory]
    [InlineData(-1, 0)]
    [InlineData(0, 1)]
    public void Check_AtTheBeginOfTheShopDay_ExpiresWithIt(int minutes, int count)
    {
        var lot = Lot() with { ExpiresOn = Today.AddDays(-1) };

        Assert.Equal(count, LotRule.Check(lot, Calendar, Calendar.StartOf(Today).AddMinutes(minutes)).Count());
    }

    // What is left in an empty drum is no lot.
    [Theory]
    [InlineData(0, 0)]
    [InlineData(0.9, 0)]
    [InlineData(1, 2)]
    public void Check_UsedUp_NothingIsFoundHoweverOld(double remaining, int count)
    {
        var lot = Lot() with { ExpiresOn = Today.AddDays(-90), IsQuarantined = true, RemainingLitres = (decimal)remaining };

        Assert.Equal(count, LotRule.Check(lot, Calendar, Some.Now).Count());
    }

    [Fact]
    public void Check_QuarantinedAndExpired_SaysBoth() =>
        Assert.Equal([LotRule.Quarantined, LotRule.Expired], LotRule.Check(Lot() with { ExpiresOn = Today.AddDays(-1), IsQuarantined = true }, Calendar, Some.Now).Select(f => f.Aspect));

    [Theory]
    [InlineData(29, false)]
    [InlineData(30, false)]
    [InlineData(31, true)]
    public void Check_AroundTheDaysOnceOpened_IsFoundAfterTheLast(int openedDaysAgo, bool isFound)
    {
        var lot = Lot() with { OpenedOn = Today.AddDays(-openedDaysAgo), OpenedLifeDays = 30 };

        var found = LotRule.Check(lot, Calendar, Some.Now).ToList();
        Assert.Equal(isFound ? [LotRule.OpenedTooLong] : [], found.Select(f => f.Aspect));
        Assert.All(found, f => Assert.Equal(31m, f.Numbers[NumberNames.Days]));
    }

    [Fact]
    public void Check_DataSheetSaysNothingOfOpenedOrNeverOpened_NothingIsFound()
    {
        Assert.Empty(LotRule.Check(Lot() with { OpenedOn = Today.AddDays(-900) }, Calendar, Some.Now));
        Assert.Empty(LotRule.Check(Lot() with { OpenedLifeDays = 30 }, Calendar, Some.Now));
    }

    // Expired says it all: nobody draws from it anyway.
    [Fact]
    public void Check_ExpiredAndOpenedTooLong_SaysExpiredAlone() =>
        Assert.Equal([LotRule.Expired], LotRule.Check(Lot() with { ExpiresOn = Today.AddDays(-1), OpenedOn = Today.AddDays(-40), OpenedLifeDays = 30 }, Calendar, Some.Now).Select(f => f.Aspect));

    [Fact]
    public void Check_Found_ReviewIsDueInAWeekAtTheEndOfAShopDay() =>
        Assert.Equal(Calendar.EndOf(new DateOnly(2026, 3, 11)), Assert.Single(LotRule.Check(Lot() with { IsQuarantined = true }, Calendar, Some.Now)).DueAt);

    // 12 L for refills and 2 L a day for 14 days are 40 L.
    [Theory]
    [InlineData(39.9, false, true)]
    [InlineData(40, false, false)]
    [InlineData(40, true, true)]
    [InlineData(43.9, true, true)]
    [InlineData(44, true, false)]
    public void Check_StockAroundWhatIsWanted_IsShortUnderItAndEnoughATenthOver(double usable, bool isKnown, bool isFound)
    {
        var found = LotRule.Check(new StockFacts(Some.Id(8), (decimal)usable, 12, 2), isKnown, Calendar, Some.Now);

        Assert.Equal(isFound, found is not null);
        Assert.Equal(isFound ? 40m : null, found?.Numbers[NumberNames.NeededLitres]);
        Assert.Equal(isFound ? Calendar.EndOf(new DateOnly(2026, 3, 6)) : null, found?.DueAt);
    }

    [Fact]
    public void Check_NothingIsWanted_AnEmptyStoreIsEnough() => Assert.Null(LotRule.Check(new StockFacts(Some.Id(8), 0, 0, 0), false, Calendar, Some.Now));

    private static LotFacts Lot() => new(Some.Id(7), Today.AddDays(100), 12, false, null, null);
}
