using ShopFluids.Rules.Drift;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Limit;
using ShopFluids.Rules.Registry;
using ShopFluids.Rules.Tests.Course;

namespace ShopFluids.Rules.Tests.Drift;

/// <summary>Where a trend begins to be believed, and where a flag that is open ends. Conductivity warns over 100 and under 20.</summary>
public sealed class DriftBoundaryTests
{
    private const string Salt = ParameterCodes.Conductivity;

    // One a day, read once a week: what is missing to 100 are the days. The horizon is 14 days, of an open flag half as much again.
    [Theory]
    [InlineData(86, false, true)]
    [InlineData(85, false, false)]
    [InlineData(79, true, true)]
    [InlineData(78, true, false)]
    public void Check_LimitMetOnTheLastDayOfTheHorizon_IsFlagged(int last, bool isOpen, bool isFlagged) =>
        Assert.Equal(isFlagged, IsFlagged(Judge(Rising(6, last, 7), 7, isOpen ? Direction.High : null)));

    // Read daily for five days: the line is followed for five days, of an open flag for seven and a half.
    [Theory]
    [InlineData(95, false, true)]
    [InlineData(94, false, false)]
    [InlineData(93, true, true)]
    [InlineData(92, true, false)]
    public void Check_ShortPast_IsFollowedNoFartherThanItReachesBack(int last, bool isOpen, bool isFlagged) =>
        Assert.Equal(isFlagged, IsFlagged(Judge(Rising(6, last, 1), 1, isOpen ? Direction.High : null)));

    // M. G. Kendall's table of S for six values: the two-sided probabilities of 13, 11, 9 and 7 are 0.017, 0.056, 0.136 and 0.272. 0.05 raises, 0.2 keeps.
    [Theory]
    [InlineData("50,40,60,70,80,90", null, true)]
    [InlineData("50,40,70,60,80,90", null, false)]
    [InlineData("50,40,70,60,80,90", Direction.Low, false)]
    [InlineData("50,40,70,60,80,90", Direction.High, true)]
    [InlineData("50,40,70,60,90,80", Direction.High, true)]
    [InlineData("60,50,40,70,90,80", Direction.High, false)]
    public void Check_TrendThatMayBeChance_TakesLessToKeepAFlagThanToRaiseIt(string values, Direction? open, bool isFlagged) =>
        Assert.Equal(isFlagged, IsFlagged(Judge(Numbers(values), 7, open, (DriftRule.HorizonDays, 90))));

    // Sen's interval of 90 %: of 15 slopes the third and the thirteenth, 6.67 and 13.33 a week; the middle one is 10. From 90 to 110 is 20.
    [Theory]
    [InlineData("50,40,60,70,80,90", 110, Direction.High)]
    [InlineData("150,160,140,130,120,110", 90, Direction.Low)]
    public void Check_SlopesThatDiffer_TellTheEarliestAndTheLatestDay(string values, int limit, Direction side)
    {
        var row = side == Direction.High ? Limits(high: limit) : Limits(low: limit);

        var flag = Judge(row, Numbers(values), 7, null, (DriftRule.HorizonDays, 90)).Flag;

        Assert.Equal(
            (side, 10.5m, 14.0m, 21.0m),
            (flag?.Direction, flag?.Numbers[NumberNames.DaysEarliest], flag?.Numbers[NumberNames.DaysUntil], flag?.Numbers[NumberNames.DaysLatest]));
    }

    // The flattest slope falls, or rises by so little that the limit lies further off than ten years: there is no latest day.
    [Theory]
    [InlineData("50,40,70,60,90,80", false)]
    [InlineData("50,40,70,50.03,80,90", false)]
    [InlineData("50,40,70,55,80,90", true)]
    public void Check_FlattestSlopeNeverMeetsTheLimit_TellsNoLatestDay(string values, bool hasLatest)
    {
        var flag = Judge(Numbers(values), 7, Direction.High, (DriftRule.HorizonDays, 90)).Flag;

        Assert.Equal(hasLatest, flag?.Numbers.ContainsKey(NumberNames.DaysLatest));
    }

    // Four readings are too few for an interval: one day is told.
    [Fact]
    public void Check_TooFewForAnInterval_TellsOneDay()
    {
        var flag = Judge([60, 70, 80, 90], 7, null, (DriftRule.LeastReadings, 4), (DriftRule.Significance, 0.1m)).Flag;

        Assert.Equal((7.0m, 7.0m, false), (flag?.Numbers[NumberNames.DaysUntil], flag?.Numbers[NumberNames.DaysEarliest], flag?.Numbers.ContainsKey(NumberNames.DaysLatest)));
    }

    // The warning limit comes first; where there is none, the action limit is the one that is met.
    [Theory]
    [InlineData(100, 120, 100)]
    [InlineData(null, 100, 100)]
    public void Check_LimitsOfTheSide_TheFirstOneIsMet(int? warning, int? action, int expected)
    {
        var row = Some.Limits(Salt, actionLow: null, warningLow: null, warningHigh: warning, actionHigh: action);

        Assert.Equal(expected, Judge(row, Rising(6, 90, 7), 7, null).Flag?.Numbers[NumberNames.Limit]);
    }

    // The limit's own flag ends at 95, or at 25: until then it says what there is to say. Flags of anything else say nothing of it.
    [Theory]
    [InlineData(LimitRule.Code, Salt, Direction.High, 96, false)]
    [InlineData(LimitRule.Code, Salt, Direction.High, 95, true)]
    [InlineData(LimitRule.Code, Salt, Direction.Low, 96, true)]
    [InlineData(LimitRule.Code, ParameterCodes.Chloride, Direction.High, 96, true)]
    [InlineData("sudden-change", Salt, Direction.High, 96, true)]
    [InlineData(LimitRule.Code, Salt, Direction.Low, 24, false)]
    [InlineData(LimitRule.Code, Salt, Direction.Low, 25, true)]
    public void Check_FlagOfTheLimitStillOpen_SaysItAlready(string rule, string parameter, Direction side, int last, bool isFlagged)
    {
        var values = last > 50 ? Rising(6, last, 7) : [.. Rising(6, -last, 7).Select(v => -v)];
        var charge = new Charge(new DriftRule(), Limits(low: 20, high: 100));
        charge.Others.Add(Some.Flag(rule, parameter, Verdict.Warning, side));

        Assert.Equal(isFlagged, IsFlagged(Judge(charge, values, 7)));
    }

    // Sixteen readings, one a day: the last of them that are enough in number and reach back far enough.
    [Theory]
    [InlineData(5, 95, 6)]
    [InlineData(10, 95, 11)]
    [InlineData(15, 95, 16)]
    public void Check_LongPast_LooksAtTheLastOfIt(int usualDays, int last, int readings)
    {
        var flag = Judge(Rising(16, last, 1), 1, null, (DriftRule.UsualReadings, 6), (DriftRule.UsualDays, usualDays)).Flag;

        Assert.Equal(readings, flag?.Numbers[NumberNames.Readings]);
    }

    // What is looked at reaches back five days, whatever came before.
    [Fact]
    public void Check_LongPast_IsFollowedNoFartherThanWhatIsLookedAt() =>
        Assert.False(IsFlagged(Judge(Rising(16, 94, 1), 1, null, (DriftRule.UsualReadings, 6), (DriftRule.UsualDays, 5))));

    // More asked for than are looked at usually: so many are looked at.
    [Fact]
    public void Check_LeastReadingsAboveTheUsual_LooksAtThoseAskedFor() =>
        Assert.Equal(10, Judge(Rising(16, 95, 1), 1, null, (DriftRule.LeastReadings, 10), (DriftRule.UsualReadings, 8), (DriftRule.UsualDays, 1)).Flag?.Numbers[NumberNames.Readings]);

    // An S of 11 has exactly 40 chances in 720.
    [Theory]
    [InlineData("0.05555555555555555", true)]
    [InlineData("0.0555555", false)]
    public void Check_TrendJustAtTheSignificance_IsBelieved(string significance, bool isFlagged) =>
        Assert.Equal(isFlagged, IsFlagged(Judge(Numbers("50,40,70,60,80,90"), 7, null, (DriftRule.HorizonDays, 90), (DriftRule.Significance, Numbers(significance)[0]))));

    // Salts rose once from 90, stood at 105 for weeks and are 99 today: Mann-Kendall sees a rise, but most pairs do not differ, and a flat line leads nowhere.
    [Fact]
    public void Check_MostPairsAlike_IsNoTrend()
    {
        decimal[] values = [.. Enumerable.Repeat(90m, 5), .. Enumerable.Repeat(105m, 14), 99];

        Assert.False(IsFlagged(Judge(values, 7, null, (DriftRule.UsualReadings, 20), (DriftRule.UsualDays, 366))));
    }

    [Fact]
    public void Check_VeryManyReadings_LooksAtTwentySix() =>
        Assert.Equal(26, Judge(Rising(30, 95, 1), 1, null, (DriftRule.UsualDays, 366)).Flag?.Numbers[NumberNames.Readings]);

    private static RuleOpinion Judge(decimal[] values, double days, Direction? open, params (string Name, decimal Value)[] numbers) =>
        Judge(Limits(low: 20, high: 100), values, days, open, numbers);

    private static RuleOpinion Judge(ParameterLimits row, decimal[] values, double days, Direction? open, params (string Name, decimal Value)[] numbers)
    {
        var charge = new Charge(new DriftRule(), row);
        if (open is { } side)
        {
            charge.Others.Add(Some.Flag(DriftRule.RuleCode, Salt, Verdict.Warning, side));
        }

        foreach (var (name, value) in numbers)
        {
            charge.Numbers[name] = value;
        }

        return Judge(charge, values, days);
    }

    private static RuleOpinion Judge(Charge charge, decimal[] values, double days)
    {
        foreach (var value in values[..^1])
        {
            charge.Reads(Some.Measured(Salt, value));
            charge.After(days);
        }

        return Assert.Single(charge.Reads(Some.Measured(Salt, values[^1])));
    }

    private static bool IsFlagged(RuleOpinion opinion) => opinion.Flag is not null;

    private static ParameterLimits Limits(int? low = null, int? high = null) =>
        Some.Limits(Salt, actionLow: null, warningLow: low, warningHigh: high, actionHigh: null, clearMargin: 5);

    private static decimal[] Rising(int count, int last, int step) => [.. Enumerable.Range(0, count).Select(n => (decimal)(last - (step * (count - 1 - n))))];

    private static decimal[] Numbers(string values) => [.. values.Split(',').Select(v => decimal.Parse(v, System.Globalization.CultureInfo.InvariantCulture))];
}
