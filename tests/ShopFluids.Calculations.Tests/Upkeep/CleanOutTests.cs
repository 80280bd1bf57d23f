using FsCheck.Xunit;
using ShopFluids.Calculations.Upkeep;
using Xunit;

namespace ShopFluids.Calculations.Tests.Upkeep;

public sealed class CleanOutTests
{
    private static readonly CleanOutRequest Request = new(
        ContentLitres: 300,
        SystemLitres: 420,
        HeelLitres: 20,
        CleanerPercent: 2,
        CirculationHours: 12,
        Rinses: 2,
        RinseLitres: 80,
        RinseHours: 0.5,
        RefillLitres: 380,
        RefillPercent: 7,
        DrainLitresPerMinute: 40,
        FillLitresPerMinute: 20,
        HandHours: 1.5,
        MeasurableLitres: 0.5);

    // The worked example of docs/calculations/upkeep.md.
    [Fact]
    public void Make_MachiningCentre_MatchesTheWorkedExample()
    {
        var plan = CleanOutPlan.Make(Request);
        Assert.Equal((6, 0, 286, 160, 446), (plan.CleanerLitres, plan.RemoveForCleanerLitres, plan.DrainLitres, plan.RinseLitres, plan.WasteLitres));
        Assert.Equal((26.5, 353.5, 380), (plan.Refill.ConcentrateLitres, plan.Refill.WaterLitres, plan.Refill.MixedLitres));
        Assert.Equal(0.2, plan.OldFluidLeftPercent, 9);
        Assert.Equal(100 * 26.5 / 400, plan.ExpectedPercent, 9);
        Assert.Equal(((446 / 40.0) + (540 / 20.0)) / 60 + 1 + 1.5, plan.MachineHours, 9);
        Assert.Equal(3.136, plan.MachineHours, 3);
        Assert.Equal(12, plan.CirculationHours);
    }

    [Fact]
    public void Make_FullSystem_MakesRoomForTheCleanerFirst()
    {
        var plan = CleanOutPlan.Make(With(content: 420, cleaner: 2.01));
        Assert.Equal((8.5, 8.5, 400, 568.5), (plan.CleanerLitres, plan.RemoveForCleanerLitres, plan.DrainLitres, plan.WasteLitres));
    }

    [Fact]
    public void Make_NoRinse_LeavesTheHeelAsItIs()
    {
        var plan = CleanOutPlan.Make(With(rinses: 0, rinseLitres: 0));
        Assert.Equal(5, plan.OldFluidLeftPercent, 9);
        Assert.Equal(0, plan.RinseLitres);
    }

    [Fact]
    public void Make_DrainedToTheLastDropWithoutRinse_LeavesNothing() =>
        Assert.Equal(0, CleanOutPlan.Make(With(rinses: 0, rinseLitres: 0, heel: 0)).OldFluidLeftPercent);

    // 200 L of cleaner take the place of all that can be drained above a heel of 800 L; a litre more of heel leaves no room.
    [Fact]
    public void Make_CleanerThatTakesAllTheRoom_IsAccepted()
    {
        var plan = CleanOutPlan.Make(new(1000, 1000, 800, 20, 12, 0, 0, 0.5, 100, 7, 40, 20, 1.5, 0.5));
        Assert.Equal((200, 200, 200), (plan.CleanerLitres, plan.RemoveForCleanerLitres, plan.DrainLitres));
        var error = Assert.Throws<ArgumentOutOfRangeException>("request", () => CleanOutPlan.Make(new(1000, 1000, 801, 20, 12, 0, 0, 0.5, 100, 7, 40, 20, 1.5, 0.5)));
        Assert.Contains("a cleaner dose that has room", error.Message, StringComparison.Ordinal);
    }

    [Property(MaxTest = 20_000, Replay = "20260101,20260103")]
    public void Make_AnySump_WhatGoesInComesOutOrStays(ushort content, byte heel, byte cleaner, byte rinses, ushort rinse)
    {
        var old = 50 + (370.0 * content / ushort.MaxValue);
        var stays = 49.0 * heel / 255;
        var request = With(old, cleaner / 30.0, rinses % 5, 1 + ((419 - stays) * rinse / ushort.MaxValue), stays, 420 - stays);
        var plan = CleanOutPlan.Make(request);
        Assert.Equal(old + plan.CleanerLitres + plan.RinseLitres, plan.WasteLitres + stays, 9);
        Assert.True(plan.DrainLitres >= 0 && plan.RemoveForCleanerLitres >= 0 && plan.DrainLitres + stays <= 420 + 1e-9);
        Assert.InRange(plan.OldFluidLeftPercent, 0, 100);
        Assert.InRange(plan.Refill.MixedLitres, 0, 420.5);
    }

    [Fact]
    public void Make_CleanerWithoutRoom_IsRefusedByName() =>
        Assert.Throws<ArgumentOutOfRangeException>("request", () => CleanOutPlan.Make(With(content: 420, cleaner: 20, heel: 400, rinseLitres: 20, refill: 20)));

    [Fact]
    public void Request_OutOfRange_IsRefusedByName()
    {
        Assert.Throws<ArgumentNullException>("request", () => CleanOutPlan.Make(null!));
        Assert.Throws<ArgumentOutOfRangeException>("ContentLitres", () => With(content: 421));
        Assert.Throws<ArgumentOutOfRangeException>("HeelLitres", () => With(heel: 300));
        Assert.Throws<ArgumentOutOfRangeException>("CleanerPercent", () => With(cleaner: 20.1));
        Assert.Throws<ArgumentOutOfRangeException>("Rinses", () => With(rinses: 21));
        Assert.Throws<ArgumentOutOfRangeException>("Rinses", () => With(rinses: -1));
        Assert.Throws<ArgumentOutOfRangeException>("RinseLitres", () => With(rinseLitres: 401));
        Assert.Throws<ArgumentOutOfRangeException>("RinseLitres", () => With(rinseLitres: 0));
        Assert.Throws<ArgumentOutOfRangeException>("RinseLitres", () => With(rinses: 0, rinseLitres: -1));
        Assert.Throws<ArgumentOutOfRangeException>("RinseLitres", () => With(rinses: 0, rinseLitres: 401));
        Assert.Throws<ArgumentOutOfRangeException>("RefillLitres", () => With(refill: 400.1));
        Assert.Equal(20, With(rinses: 20).Rinses);
        Assert.Throws<ArgumentOutOfRangeException>("SystemLitres", () => new CleanOutRequest(1, 0, 0, 0, 0, 0, 0, 0, 1, 5, 1, 1, 0, 1));
        Assert.Throws<ArgumentOutOfRangeException>("CirculationHours", () => new CleanOutRequest(1, 2, 0, 0, 1001, 0, 0, 0, 1, 5, 1, 1, 0, 1));
        Assert.Throws<ArgumentOutOfRangeException>("RinseHours", () => new CleanOutRequest(1, 2, 0, 0, 0, 0, 0, -1, 1, 5, 1, 1, 0, 1));
        Assert.Throws<ArgumentOutOfRangeException>("RefillPercent", () => new CleanOutRequest(1, 2, 0, 0, 0, 0, 0, 0, 1, 101, 1, 1, 0, 1));
        Assert.Throws<ArgumentOutOfRangeException>("DrainLitresPerMinute", () => new CleanOutRequest(1, 2, 0, 0, 0, 0, 0, 0, 1, 5, 0, 1, 0, 1));
        Assert.Throws<ArgumentOutOfRangeException>("FillLitresPerMinute", () => new CleanOutRequest(1, 2, 0, 0, 0, 0, 0, 0, 1, 5, 1, 0, 0, 1));
        Assert.Throws<ArgumentOutOfRangeException>("HandHours", () => new CleanOutRequest(1, 2, 0, 0, 0, 0, 0, 0, 1, 5, 1, 1, 1001, 1));
        Assert.Throws<ArgumentOutOfRangeException>("MeasurableLitres", () => new CleanOutRequest(1, 2, 0, 0, 0, 0, 0, 0, 1, 5, 1, 1, 0, 1.1));
    }

    [Theory]
    [InlineData(26.5, 30, 25, 0, 0, 3.5)]
    [InlineData(26.5, 26.5, 25, 0, 0, 0)]
    [InlineData(26.5, 10, 25, 16.5, 1, 8.5)]
    [InlineData(60, 10, 25, 50, 2, 0)]
    [InlineData(60.1, 10, 25, 50.1, 3, 24.9)]
    [InlineData(0, 0, 0.01, 0, 0, 0)]
    public void ShoppingLine_Stores_BuysWholePackages(double needed, double stock, double package, double missing, int packages, double left)
    {
        var line = ShoppingLine.For(needed, stock, package);
        Assert.Equal((needed, stock, packages), (line.NeededLitres, line.InStoreLitres, line.Packages));
        Assert.Equal(missing, line.ShortLitres, 9);
        Assert.Equal(left, line.LeftLitres, 9);
    }

    [Fact]
    public void ShoppingLine_SumOfTenths_BuysNoPackageForTheLastDigit() =>
        Assert.Equal(3, ShoppingLine.For(0.1 + 0.2, 0, 0.1).Packages);

    [Fact]
    public void ShoppingLine_OutOfRange_IsRefusedByName()
    {
        Assert.Throws<ArgumentOutOfRangeException>("neededLitres", () => ShoppingLine.For(-1, 0, 1));
        Assert.Throws<ArgumentOutOfRangeException>("inStoreLitres", () => ShoppingLine.For(1, -1, 1));
        Assert.Throws<ArgumentOutOfRangeException>("packageLitres", () => ShoppingLine.For(1, 0, 0.009));
    }

    private static CleanOutRequest With(
        double content = 300,
        double cleaner = 2,
        int rinses = 2,
        double rinseLitres = 80,
        double heel = 20,
        double refill = 380) =>
        new(content, 420, heel, cleaner, 12, rinses, rinseLitres, 0.5, refill, 7, 40, 20, 1.5, 0.5);
}
