using ShopFluids.Rules.Drift;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Tests.Course;

namespace ShopFluids.Rules.Tests.Drift;

/// <summary>Trends of a mix to which something was added: which values count, and when a trend begins anew. The sump holds 300 L.</summary>
public sealed class ExchangedMixTests
{
    private readonly Charge _charge = new(
        new DriftRule(),
        Some.Limits(ParameterCodes.Conductivity, actionLow: null, warningLow: null, warningHigh: 100, actionHigh: null),
        Some.Limits(ParameterCodes.Ph, actionLow: null, warningLow: 8.0m, warningHigh: null, actionHigh: null),
        Some.Limits(actionLow: null, warningLow: 5.0m, warningHigh: 12m, actionHigh: null));

    // Every week 20 L of water bring the salts down to 50, and by the next week they are a little higher than the week before. Only the tops are compared.
    // pH does not follow the saw: of it every value counts, and up and down it has no trend.
    [Theory]
    [InlineData(ParameterCodes.Conductivity, true)]
    [InlineData(ParameterCodes.Ph, false)]
    public void Check_ToppedUpEveryWeek_ComparesTheTopsOfWhatIsDissolved(string parameter, bool isFlagged)
    {
        decimal Told(decimal salt) => parameter == ParameterCodes.Ph ? 10 - (salt / 50) : salt;
        for (var week = 0; week < 7; week++)
        {
            _charge.Reads(Some.Measured(parameter, Told(50)));
            _charge.After(3.5).Reads(Some.Measured(parameter, Told(65 + (5 * week))));
            _charge.After(0.01).Moves(water: 20);
            _charge.After(3.49);
        }

        Assert.Equal(isFlagged, _charge.Open is not null);
    }

    // Conductivity rises by 7 a week; half of the fluid is swapped, or a litre more. From half on nothing is left of the trend.
    [Theory]
    [InlineData(150, true)]
    [InlineData(151, false)]
    public void Check_ExchangeOfHalf_BeginsAnewOnlyBeyondIt(int litres, bool isKept)
    {
        Weekly(ParameterCodes.Conductivity, 51, 58, 65, 72, 79, 86);
        Assert.NotNull(_charge.Open);

        _charge.After(-6).Moves(removed: litres);
        _charge.Moves(water: litres).After(6);
        var opinions = _charge.Reads(Some.Measured(ParameterCodes.Conductivity, 88));

        Assert.Equal(isKept, opinions.Count == 0);
        Assert.Equal(isKept, _charge.Open is not null);
    }

    // 200 L at 6.6 %: 32 L of water make it 5.7 %, 14 % less than it was; 40 L make it 5.5 %, 17 % less. 15 % begin anew.
    [Theory]
    [InlineData(32, true)]
    [InlineData(40, false)]
    public void Check_ConcentrationCorrected_BeginsAnewBeyondItsShare(int litres, bool isKept)
    {
        foreach (var percent in new[] { 8.6m, 8.2m, 7.8m, 7.4m, 7.0m, 6.6m })
        {
            _charge.Reads(Some.Measured(ParameterCodes.Concentration, percent), Some.Measured(ParameterCodes.Level, 200));
            _charge.After(7);
        }

        _charge.After(-6).Moves(water: litres).After(6);
        var opinions = _charge.Reads(Some.Measured(ParameterCodes.Concentration, 5.7m), Some.Measured(ParameterCodes.Level, 200 + litres));

        Assert.Equal(isKept ? 0 : 1, opinions.Count);
        Assert.All(opinions, o => Assert.Null(o.Flag));
    }

    // 200 L of water into 200 L at 8 %: half of what it was, and half is set here.
    [Fact]
    public void Check_ConcentrationCorrectedByJustItsShare_BeginsNothingAnew()
    {
        (_charge.Numbers[DriftRule.LargeCorrectionPercent], _charge.Numbers[DriftRule.LargeExchangePercent]) = (50, 100);
        foreach (var percent in new[] { 10.0m, 9.6m, 9.2m, 8.8m, 8.4m, 8.0m })
        {
            _charge.Reads(Some.Measured(ParameterCodes.Concentration, percent), Some.Measured(ParameterCodes.Level, 200));
            _charge.After(7);
        }

        _charge.After(-6).Moves(water: 200).After(6);

        Assert.Empty(_charge.Reads(Some.Measured(ParameterCodes.Concentration, 5.5m), Some.Measured(ParameterCodes.Level, 400)));
    }

    // The same share of the fluid, but of salts: what they should be now is not known, so 17 % begin nothing anew.
    [Fact]
    public void Check_SaltsThinnedByAsMuch_BeginNothingAnew()
    {
        Weekly(ParameterCodes.Conductivity, 51, 58, 65, 72, 79, 86);

        _charge.After(-6).Moves(water: 60).After(6);

        Assert.Empty(_charge.Reads(Some.Measured(ParameterCodes.Conductivity, 75)));
        Assert.NotNull(_charge.Open);
    }

    // A method that has no past says nothing, and leaves a flag as it is.
    [Fact]
    public void Check_TooFewReadingsSinceTheFill_HasNoOpinion()
    {
        Weekly(ParameterCodes.Conductivity, 58, 65, 72, 79);

        Assert.Empty(_charge.Reads(Some.Measured(ParameterCodes.Conductivity, 86)));
    }

    // After an exchange neither of two methods has a past: of the trend that there was nothing is left.
    [Fact]
    public void Check_TwoMethodsAfterAnExchange_EndTheFlag()
    {
        for (var week = 0; week < 6; week++)
        {
            _charge.Reads(Refractometer(6.0m + (0.1m * week)), Titration(5.9m + (0.1m * week)), Some.Measured(ParameterCodes.Level, 300));
            _charge.After(7);
        }

        _charge.After(-6).Moves(removed: 200);
        _charge.Moves(water: 190, concentrate: 10).After(6);
        var opinion = Assert.Single(_charge.Reads(Refractometer(6.0m), Titration(5.9m), Some.Measured(ParameterCodes.Level, 300)));

        Assert.Equal((ParameterCodes.Concentration, null), (opinion.Parameter, opinion.Flag));
    }

    private void Weekly(string parameter, params decimal[] values) => _charge.Reads(parameter, values);

    private static MeasurementFacts Refractometer(decimal percent) => Some.Measured(ParameterCodes.Concentration, percent, MethodCodes.Refractometer);

    private static MeasurementFacts Titration(decimal percent) => Some.Measured(ParameterCodes.Concentration, percent, MethodCodes.Titration);
}
