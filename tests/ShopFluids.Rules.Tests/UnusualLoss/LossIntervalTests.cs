using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Tests.Course;
using ShopFluids.Rules.UnusualLoss;

namespace ShopFluids.Rules.Tests.UnusualLoss;

/// <summary>
/// Which readings make an interval, and what belongs to it. The sump holds 1 L for each mm and is read every ten days with 20 L less, that is 2 L a day,
/// which are put back at once. A flag takes 15 L a week more.
/// </summary>
public sealed class LossIntervalTests
{
    private readonly Charge _charge = new(new UnusualLossRule());

    // A day apart at least, three weeks at most: what lies outside tells no rate.
    [Theory]
    [InlineData(1.0, 1)]
    [InlineData(0.999, 0)]
    [InlineData(21.0, 1)]
    [InlineData(21.001, 0)]
    public void Check_TimeSinceTheLastReading_TellsARateOrNot(double days, int opinions)
    {
        Usual(8);
        _charge.After(days - 10);

        Assert.Equal(opinions, _charge.Reads(Level(280)).Count);
    }

    // A month's pause tells no rate of now; the next ten days do.
    [Fact]
    public void Check_PauseBetweenReadings_IsNoRate()
    {
        Usual(8);
        _charge.After(20);

        Assert.Empty(_charge.Reads(Level(0)));
        _charge.After(0.01).Moves(water: 300);
        Assert.NotNull(Assert.Single(_charge.After(9.99).Reads(Level(250))).Flag);
    }

    // Somebody looks again within the day: the interval of the next reading begins at the first of the two.
    [Fact]
    public void Check_SecondLookWithinTheDay_BeginsNoIntervalOfItsOwn()
    {
        Usual(7);
        _charge.After(-9.5).Reads(Level(200));

        var flag = Assert.Single(_charge.After(9.5).Reads(Level(200))).Flag;

        Assert.Equal((10m, 100m, 20m), (flag?.Numbers[NumberNames.Days], flag?.Numbers[NumberNames.LostLitres], flag?.Numbers[NumberNames.UsualLitres]));
    }

    // 300 L became 80 L: what was put in was lost as well, what was taken out was not. At the very moment of a reading it was done after it.
    [Theory]
    [InlineData(0, 0, 220)]
    [InlineData(60, 0, 280)]
    [InlineData(0, 60, 160)]
    public void Check_MovementsOfTheInterval_AreReckonedWith(int water, int removed, int lost)
    {
        Usual(8);
        _charge.After(-5).Moves(water: water * 0.75, concentrate: water * 0.25, removed: removed).After(5);
        _charge.Moves(water: 500);

        Assert.Equal(lost, Assert.Single(_charge.Reads(Level(80))).Flag?.Numbers[NumberNames.LostLitres]);
    }

    // What was put in at the very moment of the last reading came after it, and was lost since.
    [Fact]
    public void Check_MovementAtTheMomentOfTheLastReading_BelongsToTheInterval()
    {
        Usual(8);
        _charge.Reads(Level(280));
        _charge.Moves(water: 20).After(10);

        Assert.Equal(200m, Assert.Single(_charge.Reads(Level(100))).Flag?.Numbers[NumberNames.LostLitres]);
    }

    [Theory]
    [InlineData(0, 1)]
    [InlineData(400, 1)]
    [InlineData(-1, 0)]
    [InlineData(401, 0)]
    public void Check_LevelAtTheEdgeOfTheSump_TellsAVolume(int level, int opinions)
    {
        Usual(8);

        Assert.Equal(opinions, _charge.Reads(Level(level)).Count);
    }

    // Of the last 25 rates 13 were small: they are the usual ones. Of 26 the middle would lie between small and large.
    [Fact]
    public void Check_LongPast_TheMiddleOfTheLastTwentyFiveIsUsual()
    {
        for (var n = 0; n < 26; n++)
        {
            Interval(40);
        }

        Usual(13);

        Assert.Equal(20m, Assert.Single(_charge.Reads(Level(100))).Flag?.Numbers[NumberNames.UsualLitres]);
    }

    // They differ by 10 L from the usual 20 L, which is a spread of 14.8 L; four of them are 59.3 L.
    [Theory]
    [InlineData(79, false)]
    [InlineData(81, true)]
    public void Check_LossesThatVary_AreAllowedTheirSpread(int loss, bool isFlagged)
    {
        foreach (var usual in new[] { 10, 20, 30, 10, 20, 30, 10, 20, 30 })
        {
            Interval(usual);
        }

        Assert.Equal(isFlagged, Assert.Single(_charge.Reads(Level(300 - loss))).Flag is not null);
    }

    // The sump has gained all the time: what is usual is told as no loss, not as a gain.
    [Fact]
    public void Check_UsuallyGains_TellsNoLossAsUsual()
    {
        for (var n = 0; n < 8; n++)
        {
            _charge.Reads(Level(320));
            _charge.After(0.01).Moves(removed: 20);
            _charge.After(9.99);
        }

        Assert.Equal(0m, Assert.Single(_charge.Reads(Level(200))).Flag?.Numbers[NumberNames.UsualLitres]);
    }

    private void Usual(int count)
    {
        for (var n = 0; n < count; n++)
        {
            Interval(20);
        }
    }

    private void Interval(int loss)
    {
        _charge.Reads(Level(300 - loss));
        _charge.After(0.01).Moves(water: loss);
        _charge.After(9.99);
    }

    private static MeasurementFacts Level(int level) => Some.Measured(ParameterCodes.Level, level);
}
