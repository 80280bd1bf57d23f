using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Judging;
using ShopFluids.Rules.Shipped;

namespace ShopFluids.Rules.Tests.Judging;

/// <summary>A measurement held against all rows of its parameter: pH warns under 8.5 and over 9.5, and when it has fallen by more than 0.5 from 9.2.</summary>
public sealed class MeasurementJudgeTests
{
    private static readonly ParameterLimits Value = Some.Limits(ParameterCodes.Ph, 8.2m, 8.5m, 9.5m, 10m);

    // Of two rows that say as much, the value's own is told, whichever was written down first; the worse one comes before it.
    [Theory]
    [InlineData(9.2, Verdict.InRange, Direction.None, null, LimitBasis.Value)]
    [InlineData(8.6, Verdict.Warning, Direction.Low, 0.5, LimitBasis.DropFromFirstFill)]
    [InlineData(8.4, Verdict.Warning, Direction.Low, 8.5, LimitBasis.Value)]
    [InlineData(8.1, Verdict.Action, Direction.Low, 8.2, LimitBasis.Value)]
    [InlineData(9.6, Verdict.Warning, Direction.High, 9.5, LimitBasis.Value)]
    [InlineData(10.1, Verdict.Action, Direction.High, 10.0, LimitBasis.Value)]
    public void Judge_ValueAndFall_TellsTheWorst(double ph, Verdict verdict, Direction side, double? limit, LimitBasis basis)
    {
        var expected = new JudgedMeasurement(ParameterCodes.Ph, "", verdict, side, (decimal?)limit, basis);

        Assert.Equal(expected, MeasurementJudge.Judge(Some.Measured(ParameterCodes.Ph, (decimal)ph), [Value, DguvAnnex3.PhDrop.Limits, Some.Limits()], 9.2m));
        Assert.Equal(expected, MeasurementJudge.Judge(Some.Measured(ParameterCodes.Ph, (decimal)ph), [DguvAnnex3.PhDrop.Limits, Some.Limits(), Value], 9.2m));
    }

    // Action by the fall, a warning by the value: the fall is told.
    [Fact]
    public void Judge_FallWorseThanTheValue_IsTold()
    {
        var judged = MeasurementJudge.Judge(Some.Measured(ParameterCodes.Ph, 8.3m), [Value, DguvAnnex3.PhDrop.Limits], 9.4m);

        Assert.Equal((Verdict.Action, Direction.Low, 1.0m, LimitBasis.DropFromFirstFill), (judged.Verdict, judged.Direction, judged.Limit, judged.Basis));
    }

    // A row that cannot judge is passed over, and the next one is asked.
    [Fact]
    public void Judge_RowThatCannotJudge_LeavesItToTheOthers()
    {
        var judged = MeasurementJudge.Judge(Some.Measured(ParameterCodes.Ph, 8.3m), [Some.Limits(ParameterCodes.Ph, null, null, null, null), DguvAnnex3.PhDrop.Limits, Value], null);

        Assert.Equal((Verdict.Warning, 8.5m), (judged.Verdict, judged.Limit));
    }

    [Theory]
    [InlineData(LimitBasis.Value, Direction.Low, Direction.Low)]
    [InlineData(LimitBasis.Value, Direction.High, Direction.High)]
    [InlineData(LimitBasis.DropFromFirstFill, Direction.High, Direction.Low)]
    [InlineData(LimitBasis.DropFromFirstFill, Direction.None, Direction.None)]
    public void SideOf_Fall_PutsTheValueLow(LimitBasis basis, Direction direction, Direction side) =>
        Assert.Equal(side, MeasurementJudge.SideOf(Some.Limits(basis: basis), direction));

    [Fact]
    public void Quantity_NoBasis_IsAWrongCall() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => MeasurementJudge.Quantity(9m, Some.Limits(basis: (LimitBasis)7), 9m));
}
