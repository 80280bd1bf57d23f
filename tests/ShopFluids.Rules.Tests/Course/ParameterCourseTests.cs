using ShopFluids.Rules.Course;
using ShopFluids.Rules.Drift;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Registry;

namespace ShopFluids.Rules.Tests.Course;

/// <summary>
/// What is known to have happened to the mix from reading to reading, by mass balance. The sump holds 1 L for each mm, 300 L at the full mark, 400 L at
/// the brim; one reading a day.
/// </summary>
public sealed class ParameterCourseTests
{
    // 200 L of 6 % and 100 L of water are 300 L of 4 %; a third of them is new.
    [Fact]
    public void Of_WaterPutIn_ThinsTheMix()
    {
        var link = Last([Read(0, 6, 200), Read(1, 4, 300)], new MovementFacts(At(0.5), 100, 0, 0));

        Assert.Equal((true, 4.0, 4.0), (link.IsKnown, link.Least(6), link.Most(6)));
        Assert.Equal(1 / 3.0, link.Exchanged, 12);
    }

    // Half of 200 L of 6 % was swapped for water.
    [Fact]
    public void Of_Swap_CountsWhatWasExchangedOnce()
    {
        var link = Last([Read(0, 6, 200), Read(1, 3, 200)], new MovementFacts(At(0.4), 0, 0, 100), new MovementFacts(At(0.5), 100, 0, 0));

        Assert.Equal((true, 3.0, 0.5), (link.IsKnown, link.Least(6), link.Exchanged));
    }

    // 12 L of product and 10 L more, of which half was taken out: 11 L in 200 L.
    [Fact]
    public void Of_ConcentrateThenRemoval_TakesOutOfBoth()
    {
        var link = Last([Read(0, 6, 200), Read(1, 5.5m, 200)], new(At(0.3), 0, 10, 0), new(At(0.4), 0, 0, 105), new(At(0.5), 95, 0, 0));

        Assert.Equal(5.5, link.Least(6), 12);
    }

    // 50 L are missing of 200 L: as mix they leave 6 %, as water 8 %.
    [Fact]
    public void Of_FluidMissingBetweenTwoLevels_WasMixOrWater()
    {
        var link = Last([Read(0, 6, 200), Read(1, 7, 150)]);

        Assert.Equal((6.0, 8.0), (link.Least(6), link.Most(6)));
    }

    // The level of the day before says how much was there, and nothing of what went missing since.
    [Fact]
    public void Of_LevelReadBeforeTheStart_TellsNothingOfLosses()
    {
        var link = Last([Read(0, 6, 200), Read(1, 6), Read(2, 6, 150)]);

        Assert.Equal((true, 6.0, 6.0), (link.IsKnown, link.Least(6), link.Most(6)));
    }

    [Fact]
    public void Of_MovementAtTheMomentOfAReading_WasMadeAfterIt()
    {
        var course = Course([Read(0, 6, 200), Read(1, 6, 200), Read(2, 4, 300)], new MovementFacts(At(1), 100, 0, 0));

        Assert.Equal((6.0, 4.0), (course.Points[1].Since.Least(6), course.Points[2].Since.Least(6)));
    }

    // 200 L are found before anything is poured, 280 L after 100 L were: 20 L are missing.
    [Fact]
    public void Of_LevelReadAfterTheStartButBeforeAnythingMoved_TellsAsMuch()
    {
        var link = Last([Read(0, 6), Level(0.2, 200), Read(1, 4, 280)], new MovementFacts(At(0.5), 100, 0, 0));

        Assert.Equal((true, 4.0), (link.IsKnown, link.Least(6)));
        Assert.Equal(4.0 * 300 / 280, link.Most(6), 12);
    }

    [Fact]
    public void Of_LevelReadOnlyAfterSomethingMoved_IsNotKnown()
    {
        var link = Last([Read(0, 6), Level(0.7, 300), Read(1, 4, 300)], new MovementFacts(At(0.5), 100, 0, 0));

        Assert.False(link.IsKnown);
    }

    // 200 L, 50 L of water, 100 L out: 150 L, which 50 L of water make 200 L.
    [Fact]
    public void Of_LevelNotReadAgain_IsCarriedOnByWhatWasMoved()
    {
        var link = Last(
            [Read(0, 6, 200), Read(1, 4.8m), Read(2, 4.8m), Read(3, 3.6m)],
            new(At(0.5), 50, 0, 0),
            new(At(1.5), 0, 0, 100),
            new(At(2.5), 50, 0, 0));

        Assert.Equal((true, 3.6, 0.25), (link.IsKnown, Math.Round(link.Least(4.8), 12), link.Exchanged));
    }

    [Theory]
    [InlineData(199, true)]
    [InlineData(200, false)]
    [InlineData(250, false)]
    public void Of_AllOfItTakenOut_IsNotKnown(int removed, bool isKnown)
    {
        var link = Last([Read(0, 6, 200), Read(1, 5, 200)], new(At(0.4), 0, 0, removed), new(At(0.5), 190, 10, 0));

        Assert.Equal(isKnown, link.IsKnown);
    }

    [Theory]
    [InlineData(400, true)]
    [InlineData(401, false)]
    [InlineData(-1, false)]
    public void Of_LevelOutsideTheSump_TellsNoVolume(int level, bool isKnown) =>
        Assert.Equal(isKnown, Last([Read(0, 6, level), Read(1, 6)], new MovementFacts(At(0.5), 0, 1, 2)).IsKnown);

    // Of a sump that was found empty the strength stays as it was read: nothing to reckon with.
    [Fact]
    public void Of_SumpFoundEmpty_LeavesTheStrength()
    {
        var course = Course([Read(0, 6, 200), Read(1, 6, 0), Read(2, 6)]);

        Assert.All(course.Points.Skip(1), p => Assert.Equal((true, 6.0, 6.0), (p.Since.IsKnown, p.Since.Least(6), p.Since.Most(6))));
    }

    // A removal alone is a movement as well: of how much fluid, nobody knows.
    [Fact]
    public void Of_TakenOutWithoutALevel_IsNotKnown()
    {
        var link = Last([Read(0, 6), Read(1, 6)], new MovementFacts(At(0.5), 0, 0, 30));

        Assert.Equal((false, 0.1), (link.IsKnown, link.Exchanged));
    }

    // Without a level what was put in is taken of the full mark.
    [Fact]
    public void Of_NoLevelAtAll_ExchangeIsReckonedWithTheFullMark() =>
        Assert.Equal(0.25, Last([Read(0, 6), Read(1, 6)], new MovementFacts(At(0.5), 60, 15, 30)).Exchanged, 12);

    [Fact]
    public void Expected_OverSeveralReadings_FollowsEachStep()
    {
        var course = Course([Read(0, 6, 200), Read(1, 6, 150), Read(2, 5, 200)], new MovementFacts(At(1.5), 50, 0, 0));

        Assert.Equal((4.5, 6.0), course.Expected(0, 2));
    }

    // Titration decides, whichever was written down first.
    [Fact]
    public void Continued_TwoMethods_TheOneThatDecidesComesFirst()
    {
        var reading = new ReadingFacts(
            Some.Id(3),
            At(1),
            [
                Some.Measured(ParameterCodes.Concentration, 7, MethodCodes.Refractometer),
                Some.Measured(ParameterCodes.Concentration, 6, MethodCodes.Titration),
                Some.Measured(ParameterCodes.Ph, 9),
            ]);

        var courses = ParameterCourse.Continued(Case([reading]), ParameterCodes.Concentration);

        Assert.Equal([6m, 7m], courses.Select(c => Assert.Single(c.Points).Value));
    }

    // Under the bottom or over the brim nobody knows in how much fluid something was mixed; at level 0 there is none.
    [Theory]
    [InlineData(200, true)]
    [InlineData(-1, false)]
    [InlineData(100_000, false)]
    public void Since_LevelOutsideTheSump_TellsNoVolume(int level, bool isKnown) =>
        Assert.Equal(isKnown, Last([Read(0, 6, level), Read(1, 6)], new MovementFacts(At(0.5), 10, 0, 0)).IsKnown);

    [Theory]
    [InlineData(1, new[] { 3 })]
    [InlineData(3, new[] { 1, 2, 3 })]
    [InlineData(9, new[] { 1, 2, 3 })]
    public void Before_TheLatest_OldestFirst(int most, int[] percents) =>
        Assert.Equal(percents.Select(p => (decimal)p), Case([Read(0, 1), Read(1, 2), Level(1.5, 200), Read(2, 3), Read(3, 4)]).Before(ParameterCodes.Concentration, most).Select(p => p.Value));

    [Fact]
    public void Before_None_Throws() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Case([Read(0, 1)]).Before(ParameterCodes.Concentration, 0));

    [Fact]
    public void Readings_SameVisitAndMeasurements_AreEqual()
    {
        var reading = Read(1, 6, 200);

        Assert.Equal(reading, reading with { Measurements = [.. reading.Measurements] });
        Assert.Equal(reading.GetHashCode(), (reading with { Measurements = [.. reading.Measurements] }).GetHashCode());
        Assert.NotEqual(reading, reading with { Measurements = [] });
    }

    private static MixLink Last(ReadingFacts[] readings, params MovementFacts[] movements) => Course(readings, movements).Points[^1].Since;

    private static ParameterCourse Course(ReadingFacts[] readings, params MovementFacts[] movements) =>
        ParameterCourse.Of(Case(readings, movements), ParameterCodes.Concentration, method: null);

    private static RuleCase Case(ReadingFacts[] readings, params MovementFacts[] movements) =>
        new(Some.Input(readings[^1]) with { History = new(readings[..^1], movements) }, new DriftRule());

    private static ReadingFacts Read(double day, decimal percent, int? level = null) => new(
        Some.Id((int)(day * 10)),
        At(day),
        [Some.Measured(ParameterCodes.Concentration, percent), .. level is { } mm ? [Some.Measured(ParameterCodes.Level, mm)] : Array.Empty<MeasurementFacts>()]);

    private static ReadingFacts Level(double day, int level) => new(Some.Id((int)(day * 10)), At(day), [Some.Measured(ParameterCodes.Level, level)]);

    private static DateTime At(double day) => Some.Now.AddDays(day);
}
