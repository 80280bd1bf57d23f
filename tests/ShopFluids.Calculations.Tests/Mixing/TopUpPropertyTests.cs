using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using ShopFluids.Calculations.Mixing;
using Xunit;

namespace ShopFluids.Calculations.Tests.Mixing;

/// <summary>What holds for every sump and every wish: mass balance, brim, pump intake, premix limits, and no better recipe left out.</summary>
[Properties(MaxTest = 3000, Replay = "20260101,20260103", Arbitrary = [typeof(TopUpPropertyTests)])]
public sealed class TopUpPropertyTests
{
    private const double Rounding = 1e-7;

    /// <summary>Sumps of 20 to 2000 L, from empty to the brim, 0 to 30 %, any order of intake, target, premix limits; steps from 1 mL to 1 L.</summary>
    public static Arbitrary<TopUpRequest> Requests()
    {
        var requests =
            from brim in Gen.Choose(200, 20_000).Select(n => n / 10.0)
            from volume in Gen.OneOf(Gen.Choose(0, 1000), Gen.Choose(900, 1000)).Select(n => brim * n / 1000)
            from targetVolume in Gen.Choose(600, 1000).Select(n => brim * n / 1000)
            from intake in Gen.Choose(0, 600).Select(n => brim * n / 1000)
            from percent in Gen.Choose(0, 300).Select(n => n / 10.0)
            from target in Gen.Choose(5, 200).Select(n => n / 10.0)
            from minimum in Gen.Choose(0, 100).Select(n => target * n / 100)
            from maximum in Gen.Choose(0, 100).Select(n => target + ((100 - target) * n * n / 10_000))
            from measurable in Gen.Elements(0.001, 0.05, 0.1, 0.3785411784, 0.5, 1)
            from uncertainty in Gen.Choose(0, 10).Select(n => n / 20.0)
            from band in Gen.Elements<double?>(null, 0, 0.5)
            select Some.TopUp(
                volume, percent, targetVolume, target, minimum, maximum, brim, intake, measurable, uncertainty * 10, uncertainty,
                band is null ? null : Math.Max(0, target - band.Value), target + band);
        return requests.ToArbitrary();
    }

    [Property]
    public void Plan_Amounts_AreNeverNegativeAndWholeSteps(TopUpRequest request)
    {
        var recipe = TopUp.Plan(request);
        Assert.All([recipe.ConcentrateLitres, recipe.WaterLitres, recipe.RemoveLitres, recipe.RemoveForExactLitres ?? 0], litres =>
        {
            Assert.True(litres >= 0);
            Assert.Equal(Math.Round(litres / request.MeasurableLitres), litres / request.MeasurableLitres, tolerance: 1e-5);
        });
        Assert.True(recipe.EndsHighByPercent >= 0 && recipe.UncertaintyPercent >= 0 && double.IsFinite(recipe.UncertaintyPercent));
    }

    [Property]
    public void Plan_VolumeAndConcentrate_AreConserved(TopUpRequest request)
    {
        var recipe = TopUp.Plan(request);
        var left = request.VolumeLitres.Value - recipe.RemoveLitres;
        Assert.Equal(left + recipe.ConcentrateLitres + recipe.WaterLitres, recipe.ExpectedLitres, tolerance: 1e-9);
        if (recipe.ExpectedLitres > 0)
        {
            var concentrate = (left * request.ConcentrationPercent.Value / 100) + recipe.ConcentrateLitres;
            Assert.Equal(concentrate, recipe.ExpectedLitres * recipe.ExpectedPercent / 100, tolerance: 1e-9);
        }
    }

    // Its own amounts lead where the recipe says; nothing done leaves the sump as it was.
    [Property]
    public void After_ItsOwnAmountsOrNone_IsWhereItSaysOrWhereItBegan(TopUpRequest request)
    {
        var recipe = TopUp.Plan(request);
        var (litres, percent) = recipe.After([new(recipe.RemoveLitres, recipe.WaterLitres, recipe.ConcentrateLitres)]);
        Assert.Equal(recipe.ExpectedLitres, litres, tolerance: 1e-9);
        Assert.Equal(recipe.ExpectedPercent, percent, tolerance: 1e-6);

        var before = recipe.After([]);
        Assert.Equal(request.VolumeLitres.Value, before.Litres, tolerance: 1e-9);
        if (request.VolumeLitres.Value - recipe.RemoveLitres > 1)
        {
            Assert.Equal(request.ConcentrationPercent.Value, before.Percent, tolerance: 1e-6);
        }
    }

    [Property]
    public void Plan_Level_IsNeverPastTheBrimNorTakenBelowTheIntake(TopUpRequest request)
    {
        var recipe = TopUp.Plan(request);
        Assert.True(recipe.ExpectedLitres <= request.BrimLitres + Rounding);
        Assert.True(recipe.RemoveLitres == 0 || request.VolumeLitres.Value - recipe.RemoveLitres >= request.PumpIntakeLitres - Rounding);
        Assert.True(recipe.RemoveForExactLitres is not { } exact || request.VolumeLitres.Value - exact >= request.PumpIntakeLitres - Rounding);
    }

    [Property]
    public void Plan_Level_EndsWithinAStepOfTheTargetOrStaysWhereItIs(TopUpRequest request)
    {
        var recipe = TopUp.Plan(request);
        var wanted = recipe.Case is TopUpCase.NothingToAdd ? request.VolumeLitres.Value : request.TargetVolumeLitres;
        Assert.Equal(Math.Max(wanted, recipe.Case is TopUpCase.NoRemovalPossible ? Lowest(request) : 0), recipe.ExpectedLitres, tolerance: request.MeasurableLitres + Rounding);
    }

    [Property]
    public void Plan_WhateverIsAdded_DoesNotPassTheTargetVolume(TopUpRequest request)
    {
        var recipe = TopUp.Plan(request);
        if (recipe.ConcentrateLitres + recipe.WaterLitres > 0)
        {
            Assert.True(recipe.ExpectedLitres <= request.TargetVolumeLitres + Rounding);
        }
    }

    [Property]
    public void Plan_Premix_IsWithinItsLimitsWhereASingleStepIs(TopUpRequest request)
    {
        var recipe = TopUp.Plan(request);
        var litres = recipe.ConcentrateLitres + recipe.WaterLitres;
        var (least, most) = (request.PremixMinimumPercent * litres / 100, request.PremixMaximumPercent * litres / 100);
        var step = request.MeasurableLitres;
        if (Math.Ceiling((least / step) - 1e-6) <= Math.Floor((most / step) + 1e-6))
        {
            Assert.InRange(recipe.ConcentrateLitres, least - Rounding, most + Rounding);
        }
        else
        {
            Assert.InRange(recipe.ConcentrateLitres, least - step, most + step);
        }
    }

    [Property]
    public void Plan_Result_IsAsNearTheTargetAsItsCasePromises(TopUpRequest request)
    {
        var recipe = TopUp.Plan(request);
        var (percent, target) = (request.ConcentrationPercent.Value, request.TargetPercent);

        // Two steps: the volume is off by up to one, and the premix limits may cost another of concentrate.
        var step = 200 * request.MeasurableLitres / Math.Max(recipe.ExpectedLitres, request.MeasurableLitres);
        switch (recipe.Case)
        {
            case TopUpCase.TopUp when recipe.RemoveForExactLitres is null && request.AcceptedMinimumPercent is not null:
                Assert.True(recipe.ExpectedPercent >= Math.Min(request.AcceptedMinimumPercent.Value, target) - step);
                Assert.True(recipe.ExpectedPercent <= target + step);
                break;
            case TopUpCase.TopUp when recipe.RemoveForExactLitres is not null:
                Assert.True(recipe.ExpectedPercent < target);
                break;
            case TopUpCase.RemoveFirst or TopUpCase.SwapAtLevel:
                Assert.Equal(target, recipe.ExpectedPercent, tolerance: step);
                Assert.True(recipe.RemoveLitres > 0);
                break;
            case TopUpCase.TopUpEndsHigh:
                Assert.True(recipe.ExpectedPercent > target && percent > target);
                Assert.Equal(recipe.ExpectedPercent - target, recipe.EndsHighByPercent, tolerance: 1e-12);
                break;
            case TopUpCase.NoRemovalPossible:
                Assert.True(Math.Abs(recipe.ExpectedPercent - target) <= Math.Abs(percent - target) + step);
                break;
            case TopUpCase.NothingToAdd:
                Assert.Equal(0, recipe.ConcentrateLitres + recipe.WaterLitres + recipe.RemoveLitres);
                break;
        }
    }

    [Property]
    public void Plan_Removal_IsTheLeastThatReachesTheTarget(TopUpRequest request)
    {
        var recipe = TopUp.Plan(request);
        if (recipe.Case is TopUpCase.RemoveFirst or TopUpCase.SwapAtLevel)
        {
            AssertLeast(request, recipe.RemoveLitres, Level(request, recipe));
        }

        if (recipe.RemoveForExactLitres is { } exact)
        {
            AssertLeast(request, exact, request.TargetVolumeLitres);
        }
    }

    [Property]
    public void Plan_WhenRemovalIsRefused_TheTargetReallyIsOutOfReach(TopUpRequest request)
    {
        var recipe = TopUp.Plan(request);
        if (recipe.Case is TopUpCase.NoRemovalPossible)
        {
            var allowed = Math.Max(0, request.VolumeLitres.Value - request.PumpIntakeLitres);
            Assert.True(Reaches(request, allowed - request.MeasurableLitres, Level(request, recipe)) <= Rounding);
        }
    }

    [Fact]
    public void Requests_Generated_ReachEveryCase()
    {
        var cases = Requests().Generator.Sample(2000, new Rnd(20260101, 20260103), 50).Select(request => TopUp.Plan(request).Case).ToHashSet();
        Assert.Equal(Enum.GetValues<TopUpCase>().Order(), cases.Order());
    }

    // A sump less than a step short of the full mark keeps its level when its fluid is swapped.
    private static double Level(TopUpRequest request, TopUpRecipe recipe) => recipe.Case is TopUpCase.RemoveFirst
        ? request.TargetVolumeLitres
        : Math.Min(request.TargetVolumeLitres, IsFull(request) ? request.VolumeLitres.Value : request.TargetVolumeLitres);

    private static bool IsFull(TopUpRequest request) => request.TargetVolumeLitres - request.VolumeLitres.Value < request.MeasurableLitres * (1 - 1e-8);

    // How far down a removal in whole steps may go.
    private static double Lowest(TopUpRequest request)
    {
        var steps = Math.Floor((Math.Max(0, request.VolumeLitres.Value - request.PumpIntakeLitres) / request.MeasurableLitres) + 1e-8);
        return request.VolumeLitres.Value - (steps * request.MeasurableLitres);
    }

    private static void AssertLeast(TopUpRequest request, double removed, double level)
    {
        Assert.True(Reaches(request, removed, level) >= -Rounding * request.BrimLitres, "The removal does not reach the target.");
        Assert.True(Reaches(request, removed - request.MeasurableLitres, level) < Rounding * request.BrimLitres, "A smaller removal would do.");
    }

    // Percent litres beyond the target (0 or more: reached) when the removed amount is made good with the premix at its limit.
    private static double Reaches(TopUpRequest request, double removed, double level)
    {
        var (volume, percent, target) = (request.VolumeLitres.Value, request.ConcentrationPercent.Value, request.TargetPercent);
        var weak = percent < target;
        var premix = weak ? request.PremixMaximumPercent : request.PremixMinimumPercent;
        var beyond = (percent * (volume - removed)) + (premix * (level - volume + removed)) - (target * level);
        return weak ? beyond : -beyond;
    }
}
