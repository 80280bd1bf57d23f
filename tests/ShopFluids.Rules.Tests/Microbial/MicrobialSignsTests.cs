using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Microbial;
using ShopFluids.Rules.Registry;

namespace ShopFluids.Rules.Tests.Microbial;

/// <summary>How smell, fall and steadiness are told, at their edges. pH was 9.0 and the concentration 8 %; a fall of 0.3 with a sour smell is flagged.</summary>
public sealed class MicrobialSignsTests
{
    private static readonly MicrobialRule Rule = new();

    // Not every visit asks the nose: a smell keeps for a week. One that came after the reading says nothing of it.
    [Theory]
    [InlineData(-7.0, true)]
    [InlineData(-7.001, false)]
    [InlineData(0.0, true)]
    [InlineData(0.001, false)]
    public void Check_SmellOfAnotherVisit_KeepsForAWeek(double day, bool isFlagged)
    {
        var standing = Some.Standing(latest: [(ParameterCodes.Odour, Some.Latest(2, Some.Now.AddDays(day)))]);

        Assert.Equal(isFlagged, Judge([Ph(8.6m)], Past(9.0m, 9.0m, 9.0m), standing).Any(o => o.Flag is not null));
    }

    [Fact]
    public void Check_SmellNotKnown_HasNoOpinion() => Assert.Empty(Judge([Ph(8.0m)], Past(9.0m, 9.0m, 9.0m)));

    // Three earlier values tell what is usual, two do not.
    [Theory]
    [InlineData("9.0,9.0", null)]
    [InlineData("9.0,9.0,9.0", 9.0)]
    [InlineData("9.4,9.0,9.2,9.0", 9.1)]
    [InlineData("9.0,8.9,9.6", 9.0)]
    [InlineData("8.0,9.2,9.2,9.2,9.0,9.0,9.0", 9.1)]
    public void Check_EarlierValues_TheMiddleOfTheLastSixIsUsual(string before, double? usual)
    {
        var flag = Judge([Ph(8.5m), Odour(2)], Past(Numbers(before))).SingleOrDefault()?.Flag;

        Assert.Equal((decimal?)usual, flag?.Numbers[NumberNames.Usual]);
    }

    // 0.3 and 0.4 are 0.5 together.
    [Theory]
    [InlineData(8.5, false)]
    [InlineData(8.49, true)]
    public void Check_FallOfJustTheUncertainty_IsNone(double ph, bool isFlagged)
    {
        ReadingFacts[] past = [.. Past(9.0m, 9.0m, 9.0m).Select(r => r with { Measurements = [new(ParameterCodes.Ph, "", 9.0m, 0.3m)] })];

        Assert.Equal(isFlagged, Judge([new(ParameterCodes.Ph, "", (decimal)ph, 0.4m), Odour(2)], past).Single().Flag is not null);
    }

    // 15 % of 8 are 1.2; an instrument good to 1.5 tells no less a difference than that.
    [Theory]
    [InlineData(6.8, 0.0, true)]
    [InlineData(6.79, 0.0, false)]
    [InlineData(9.2, 0.0, true)]
    [InlineData(9.21, 0.0, false)]
    [InlineData(6.5, 1.5, true)]
    [InlineData(6.49, 1.5, false)]
    public void Check_Concentration_IsSteadyWithinItsShare(double percent, double uncertainty, bool isFlagged)
    {
        ReadingFacts[] past = [.. Past(9.0m, 9.0m, 9.0m).Select(r => r with { Measurements = [Ph(9.0m), Percent(8, 0)] })];

        Assert.Equal(isFlagged, Judge([Ph(8.6m), Odour(2), Percent((decimal)percent, (decimal)uncertainty)], past).Single().Flag is not null);
    }

    // The concentration is read for the first time, or has been 0 so far: nothing to compare with, and nothing that speaks against.
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Check_UsualConcentrationNotKnown_SpeaksAgainstNothing(bool wasZero)
    {
        ReadingFacts[] past = [.. Past(9.0m, 9.0m, 9.0m).Select(r => wasZero ? r with { Measurements = [Ph(9.0m), Percent(0, 0)] } : r)];

        Assert.False(Judge([Ph(8.6m), Odour(2), Percent(5, 0)], past).Single().Flag?.Numbers.ContainsKey(NumberNames.Steady));
    }

    // Rotten egg once is told as long as the flag stands, and keeps it an action.
    [Fact]
    public void Check_RottenEggBefore_TellsTheWorstSmell()
    {
        var open = Flag(Verdict.Action, value: 8.6m, odour: 3);

        var flag = Judge([Ph(8.5m), Odour(2)], Past(9.0m, 9.0m, 9.0m), Some.Standing(flags: [open])).Single().Flag;

        Assert.Equal((Verdict.Action, 3m, 8.6m), (flag?.Severity, flag?.Numbers[NumberNames.Odour], flag?.Numbers[NumberNames.Value]));
    }

    [Fact]
    public void Check_SmellGetsWorse_TellsTheWorseOne()
    {
        var flag = Judge([Ph(8.5m), Odour(3)], Past(9.0m, 9.0m, 9.0m), Some.Standing(flags: [Flag(Verdict.Warning, value: 8.6m, odour: 2)])).Single().Flag;

        Assert.Equal((Verdict.Action, 3m), (flag?.Severity, flag?.Numbers[NumberNames.Odour]));
    }

    // Back to within 0.2 of the usual ends it whatever the smell; otherwise the smell must be gone and pH no lower than 0.1 under what was flagged.
    [Theory]
    [InlineData(8.81, 2, true)]
    [InlineData(8.8, 2, false)]
    [InlineData(8.5, 1, true)]
    [InlineData(8.49, 1, false)]
    [InlineData(8.5, 0, true)]
    [InlineData(8.7, 2, false)]
    public void Check_OpenFlag_EndsAtItsEdges(double ph, int odour, bool isCleared)
    {
        var standing = Some.Standing(flags: [Flag(Verdict.Warning, value: 8.6m, odour: 2)]);

        Assert.Equal(isCleared, Judge([Ph((decimal)ph), Odour(odour)], Past(9.0m, 9.0m, 9.0m), standing).Single().Flag is null);
    }

    // A slide beyond its limit is the limit's to say; limits of other things say nothing of it.
    [Theory]
    [InlineData(ParameterCodes.Bacteria, LimitBasis.Value, false)]
    [InlineData(ParameterCodes.Bacteria, LimitBasis.DropFromFirstFill, true)]
    [InlineData(ParameterCodes.Odour, LimitBasis.Value, true)]
    public void Check_SlideBeyondALimit_OnlyThatOfTheCountSaysIt(string parameter, LimitBasis basis, bool isFlagged)
    {
        var row = Some.Limits(parameter, null, null, 3.5m, 6, edgeIsBeyond: true, clearMargin: 0, basis: basis);
        ReadingFacts[] past = [new(Some.Id(1), Some.Now.AddDays(-28), [Some.Measured(ParameterCodes.Bacteria, 2)])];

        Assert.Equal(isFlagged, Judge([Some.Measured(ParameterCodes.Bacteria, 3.5m)], past, limits: row).Single().Flag is not null);
    }

    [Fact]
    public void Check_FirstSlide_HasGrownByNothing() => Assert.Null(Judge([Some.Measured(ParameterCodes.Bacteria, 4)], []).Single().Flag);

    [Fact]
    public void Check_SlideGrown_TellsBothSlides()
    {
        ReadingFacts[] past = [.. new[] { 3.0m, 2.5m }.Select((v, i) => new ReadingFacts(Some.Id(i), Some.Now.AddDays((28 * i) - 56), [Some.Measured(ParameterCodes.Bacteria, v)]))];

        var flag = Judge([Some.Measured(ParameterCodes.Bacteria, 3.5m)], past).Single().Flag;

        Assert.Equal((ParameterCodes.Bacteria, Verdict.Warning, Direction.High, 3.5m, 2.5m), (flag?.Parameter, flag?.Severity, flag?.Direction, flag?.Numbers[NumberNames.Value], flag?.Numbers[NumberNames.Previous]));
    }

    private static List<RuleOpinion> Judge(MeasurementFacts[] measured, IReadOnlyList<ReadingFacts> past, StandingFacts? standing = null, ParameterLimits? limits = null) =>
        [.. Rule.Check(new(Some.Input(Some.Reading(measured), standing, limits is null ? [] : [limits]) with { History = new(past, []) }, Rule))];

    private static OpenFlag Flag(Verdict severity, decimal value, decimal odour) => Some.Flag(MicrobialRule.RuleCode, ParameterCodes.Ph, severity, Direction.Low) with
    {
        Numbers = new Dictionary<string, decimal> { [NumberNames.Value] = value, [NumberNames.Usual] = 9.0m, [NumberNames.Odour] = odour },
    };

    private static ReadingFacts[] Past(params decimal[] ph) => [.. ph.Select((v, i) => new ReadingFacts(Some.Id(800 + i), Some.Now.AddDays(7 * (i - ph.Length)), [Ph(v)]))];

    private static decimal[] Numbers(string values) => [.. values.Split(',').Select(v => decimal.Parse(v, System.Globalization.CultureInfo.InvariantCulture))];

    private static MeasurementFacts Ph(decimal value) => Some.Measured(ParameterCodes.Ph, value);

    private static MeasurementFacts Odour(decimal value) => Some.Measured(ParameterCodes.Odour, value);

    private static MeasurementFacts Percent(decimal value, decimal uncertainty) => new(ParameterCodes.Concentration, "", value, uncertainty);
}
