using ShopFluids.Calculations.Balances;
using ShopFluids.Calculations.Tests.Vectors;
using Xunit;

namespace ShopFluids.Calculations.Tests.Balances;

public sealed class BuildupTests
{
    private static readonly MakeUp Sump = new(400, 12, 4);
    private static readonly MakeUp Closed = new(400, 12, 0);

    public static TheoryData<string[]> Sumps => VectorFile.Theory("sump_hardness_buildup");

    public static TheoryData<string[]> Towers => VectorFile.Theory("cycles_of_concentration");

    // sump_hardness_buildup.csv: computed from the closed solution. It holds the worked example of docs/calculations/balance.md.
    [Theory]
    [MemberData(nameof(Sumps))]
    public void At_ComputedSumps_Agree(string[] row)
    {
        var numbers = row[..7].Select(VectorFile.Number).ToArray();
        var sump = new MakeUp(numbers[0], numbers[1], numbers[2]);
        Assert.Equal(numbers[6], Buildup.At(sump, numbers[3], numbers[4], numbers[5]), tolerance: 6e-4);
        Assert.Equal(row[7] == "unbounded" ? (double?)null : VectorFile.Number(row[7]), Buildup.SteadyStateMgPerLitre(sump, numbers[3]));
    }

    // cycles_of_concentration.csv: rows read in published cases (rounded to a whole number there) and rows computed.
    [Theory]
    [MemberData(nameof(Towers))]
    public void BlowdownAndMakeUp_CoolingTowers_Agree(string[] row)
    {
        var numbers = row[1..6].Select(VectorFile.Number).ToArray();
        var tolerance = row[6].StartsWith("read", StringComparison.Ordinal) ? 1 : 1e-6;
        var (evaporation, drift, cycles) = (numbers[0], numbers[1], numbers[2]);
        var blowdown = CyclesOfConcentration.Blowdown(evaporation, drift, cycles);
        Assert.Equal(numbers[3], blowdown, tolerance);
        Assert.Equal(numbers[4], CyclesOfConcentration.MakeUp(evaporation, cycles), tolerance);
        Assert.Equal(cycles, CyclesOfConcentration.Of(evaporation, drift, blowdown), 9);

        // A sump whose carry-off is the tower's blowdown and drift concentrates as much.
        Assert.Equal(cycles, new MakeUp(1000, evaporation, blowdown + drift).CyclesOfConcentration ?? 0, 9);
    }

    [Fact]
    public void Cycles_OutOfRange_AreRefusedByName()
    {
        var error = Assert.Throws<ArgumentOutOfRangeException>("cycles", () => CyclesOfConcentration.Blowdown(100, 50, 3.001));
        Assert.Contains("1 + evaporation / drift", error.Message, StringComparison.Ordinal);
        Assert.Equal(0, CyclesOfConcentration.Blowdown(100, 50, 3), 9);
        Assert.Throws<ArgumentOutOfRangeException>("cycles", () => CyclesOfConcentration.MakeUp(100, 1));
        Assert.Throws<ArgumentOutOfRangeException>("blowdown", () => CyclesOfConcentration.Of(100, 0, 0));
        Assert.Equal(101, CyclesOfConcentration.Of(100, 1, 0), 9);
        Assert.Throws<ArgumentOutOfRangeException>("evaporation", () => CyclesOfConcentration.Of(-1, 1, 1));
        Assert.Throws<ArgumentOutOfRangeException>("drift", () => CyclesOfConcentration.Of(1, -1, 1));
    }

    [Fact]
    public void Of_DriftOfOneMillionth_NeedsNoBlowdown() => Assert.Equal(1_000_001, CyclesOfConcentration.Of(1, 1e-6, 0), 3);

    [Fact]
    public void At_AfterAThousandSumpVolumes_IsTheSteadyState() => Assert.Equal(600, Buildup.At(Sump, 150, 150, 100_000), 9);

    [Fact]
    public void TurnoversToReach_Share_IsCyclesTimesTheLogarithm()
    {
        Assert.Equal(4 * Math.Log(20), Buildup.TurnoversToReach(Sump) ?? 0, 9);
        Assert.Equal(0, Buildup.TurnoversToReach(Sump, 0));
        Assert.Null(Buildup.TurnoversToReach(Closed));
        Assert.Null(Buildup.TurnoversToReach(new(400, 0, 0)));

        // That many turnovers later, 95 % of the way is gone.
        var days = 4 * Math.Log(20) * 400 / 16;
        Assert.Equal(150 + (0.95 * 450), Buildup.At(Sump, 150, 150, days), 6);
    }

    [Fact]
    public void DaysToLimit_BelowTheSteadyState_IsWhenItGetsThere()
    {
        var days = Buildup.DaysToLimit(Sump, 150, 150, 400) ?? 0;
        Assert.Equal(100 * Math.Log(450 / 200.0), days, 9);
        Assert.Equal(400, Buildup.At(Sump, 150, 150, days), 9);
        Assert.Equal(250 * 400 / (150 * 12.0), Buildup.DaysToLimit(Closed, 150, 150, 400) ?? 0, 9);
    }

    [Fact]
    public void DaysToLimit_ThereAlreadyOrNever_IsZeroOrNull()
    {
        Assert.Equal(0, Buildup.DaysToLimit(Sump, 150, 400, 400));

        // Softer make-up: it stands at the limit and falls.
        Assert.Equal(0, Buildup.DaysToLimit(Sump, 50, 400, 400));
        Assert.Equal(1_000_000, Buildup.DaysToLimit(new(1_000_000, 1, 0), 1, 0, 1));
        Assert.Null(Buildup.DaysToLimit(Sump, 150, 150, 600));
        Assert.Null(Buildup.DaysToLimit(Sump, 0, 150, 151));
        Assert.Null(Buildup.DaysToLimit(new(400, 0, 0), 150, 150, 151));
        Assert.Null(Buildup.DaysToLimit(new(1_000_000, 1e-6, 0), 1, 0, 1000));
    }

    [Fact]
    public void HardestMakeUp_ForGoodOrForATime_KeepsTheLimitExactly()
    {
        Assert.Equal(75, Buildup.HardestMakeUpMgPerLitre(Sump, 150, 300), 9);
        var water = Buildup.HardestMakeUpMgPerLitre(Sump, 150, 300, 60);
        Assert.Equal(300, Buildup.At(Sump, water, 150, 60), 9);
        Assert.True(water > 75);
        Assert.Equal(0, Buildup.HardestMakeUpMgPerLitre(Closed, 150, 300));
        Assert.Equal(150 * 400 / (12 * 60.0), Buildup.HardestMakeUpMgPerLitre(Closed, 150, 300, 60), 9);
        Assert.Equal(1_000_000, Buildup.HardestMakeUpMgPerLitre(new(400, 0, 0), 150, 300));
        Assert.Equal(1_000_000, Buildup.HardestMakeUpMgPerLitre(new(400, 0, 0), 150, 300, 60));
    }

    // The worked example of docs/calculations/balance.md.
    [Fact]
    public void Of_HardTapWaterAndRoWater_MatchesTheWorkedExample()
    {
        var wanted = Buildup.HardestMakeUpMgPerLitre(Sump, 150, 300);
        Assert.Equal(new WaterBlend(WaterBlendCase.Blend, 0.6, 75), WaterBlend.Of(180, 5, wanted));
        Assert.Equal(new WaterBlend(WaterBlendCase.HardWaterWillDo, 0, 75), WaterBlend.Of(75, 5, wanted));
        Assert.Equal(new WaterBlend(WaterBlendCase.NotReachable, 1, 76), WaterBlend.Of(180, 76, wanted));
        Assert.Equal(new WaterBlend(WaterBlendCase.Blend, 1, 75), WaterBlend.Of(180, 75, wanted));
    }

    [Fact]
    public void AnyInput_OutOfRange_IsRefusedByName()
    {
        Assert.Throws<ArgumentOutOfRangeException>("VolumeLitres", () => new MakeUp(0.09, 1, 1));
        Assert.Throws<ArgumentOutOfRangeException>("EvaporationLitresPerDay", () => new MakeUp(1, -1, 1));
        Assert.Throws<ArgumentOutOfRangeException>("CarryOffLitresPerDay", () => new MakeUp(1, 1, -1));
        Assert.Throws<ArgumentOutOfRangeException>("days", () => Buildup.At(Sump, 1, 1, -1));
        Assert.Throws<ArgumentOutOfRangeException>("days", () => Buildup.HardestMakeUpMgPerLitre(Sump, 1, 2, 0));
        Assert.Throws<ArgumentOutOfRangeException>("startMgPerLitre", () => Buildup.HardestMakeUpMgPerLitre(Sump, 3, 2));
        Assert.Throws<ArgumentOutOfRangeException>("makeUpMgPerLitre", () => Buildup.SteadyStateMgPerLitre(Sump, -1));
        Assert.Throws<ArgumentOutOfRangeException>("share", () => Buildup.TurnoversToReach(Sump, 1));
        Assert.Throws<ArgumentOutOfRangeException>("softMgPerLitre", () => WaterBlend.Of(10, 11, 5));
        Assert.False(new MakeUp(400, 1e6, 1e-4).HasSteadyState);
        Assert.False(new MakeUp(400, 0, 0).HasSteadyState);

        // One part in a billion is enough, to the last digit.
        Assert.True(new MakeUp(400, 999_999.999, 0.001).HasSteadyState);
        Assert.True(new MakeUp(400, 1e6, 2e-3).HasSteadyState);
    }
}
