using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Rules;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Setup;

/// <summary>Changing a sump: what holds for a new one holds for it, the past stays, and what it holds now follows its shape.</summary>
public sealed class ChangeSumpTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task HandleAsync_EveryField_IsChangedAndStandsInTheRecord(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var area = Some.Id();
        (await shop.Get<AddAreaHandler>().HandleAsync(new AddArea(area, "Grinding", 2), Some.Supervisor, Stop)).Done();
        var table = new SumpShape(GeometryKind.StrappingTable, 0, 0, 400, 0, [new(0, 0), new(100, 30), new(400, 200)]);

        (await ChangeAsync(shop, (await SameAsync(shop)) with { AreaId = area, Shape = table, FullMarkMm = 350, PumpIntakeMm = 70, WalkOrder = 12, WaterSourceId = null })).Done();

        var setup = await shop.SetupAsync();
        var sump = setup.FindSump(Some.SumpTag)!;
        Assert.Equal((Some.SumpTag, area, 350m, 70m, 12, (Guid?)null), (sump.Tag, sump.AreaId, sump.FullMarkMm, sump.PumpIntakeMm, sump.WalkOrder, sump.WaterSourceId));
        Assert.Equal([0m, 30m, 200m], sump.Shape.Points.Select(p => p.VolumeLitres));
        Assert.Equal(area, Assert.Single(setup.MachinesOf(sump)).AreaId);
        Assert.Equal(Some.SumpTag, await shop.ReadAsync(db => db.RecordEntries.OrderByDescending(e => e.Sequence).Select(e => e.Subject).FirstAsync()));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_OtherShape_TheVolumeFollows(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(levelMm: 300));
        Assert.Equal(150.0, await VolumeAsync(shop));
        var same = await SameAsync(shop);

        (await ChangeAsync(shop, same with { Shape = same.Shape with { LengthMm = 1200 } })).Done();

        Assert.Equal(180.0, await VolumeAsync(shop));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // 120 L of the long sump do not fit into the short one.
    [Theory]
    [EachDatabase(800, true)]
    [EachDatabase(1000, false)]
    public async Task HandleAsync_OtherShape_WithdrawsTheRecipeAndAsksForALevel(TestDatabase database, int lengthMm, bool isWithdrawn)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 4.0m, levelMm: 200));
        var same = await SameAsync(shop);

        (await ChangeAsync(shop, same with { Shape = same.Shape with { LengthMm = lengthMm }, WalkOrder = 7 })).Done();

        var open = await shop.ReadAsync(db => db.CareTasks.Where(t => t.State == TaskState.Open).ToListAsync());
        Assert.Equal(isWithdrawn ? TaskKind.Test : TaskKind.Adjust, Assert.Single(open.Select(t => t.Kind).Distinct()));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_OtherMarks_LevelLimitsFollowFromNowOn(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(levelMm: 300));

        (await ChangeAsync(shop, (await SameAsync(shop)) with { FullMarkMm = 280 })).Done();

        var own = (await shop.SetupAsync()).LimitSets.Where(l => l.SumpId == shop.SumpId).OrderBy(l => l.Number).ToList();
        Assert.Equal([340m, 280m], own.Select(l => Assert.Single(l.Limits).TargetHigh));
        Assert.Equal(Some.Start.AddMilliseconds(1), own[1].ValidFromUtc);
        shop.Clock.Advance(TimeSpan.FromHours(1));
        var level = (await shop.StoreAsync(Some.Reading(levelMm: 300, takenAt: shop.Now))).Measurements.Single(m => m.Parameter == ParameterCodes.Level);
        Assert.Equal((Verdict.Warning, Direction.High), (level.Verdict, level.Direction));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_LevelLimitsSetByHand_Stay(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var own = (await shop.SetupAsync()).LimitSets.Single(l => l.SumpId == shop.SumpId).Limits[0] with { WarningLow = 150 };
        (await shop.Get<SetLimitsHandler>().HandleAsync(new SetLimits(Some.Id(), null, shop.SumpId, Some.Start, [own]), Some.Supervisor, Stop)).Done();

        (await ChangeAsync(shop, (await SameAsync(shop)) with { FullMarkMm = 280 })).Done();

        Assert.Equal(2, (await shop.SetupAsync()).LimitSets.Count(l => l.SumpId == shop.SumpId));
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_Machines_NewOneComesAndOldOneStaysWithoutASump(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var same = await SameAsync(shop);

        (await ChangeAsync(shop, same with { MachineIds = [], NewMachines = [Machine("M-08")] })).Done();

        var setup = await shop.SetupAsync();
        var sump = setup.FindSump(Some.SumpTag)!;
        Assert.Equal("M-08", Assert.Single(setup.MachinesOf(sump)).Tag);
        Assert.Equal(["M-07", "M-08"], setup.Machines.Select(m => m.Tag));
        Assert.Equal(same.SeenVersion + 1, sump.Version);
        Assert.Empty((await shop.VerifyAsync()).Findings);

        (await ChangeAsync(shop, (await SameAsync(shop)) with { MachineIds = [.. setup.Machines.Select(m => m.Id)] })).Done();
        setup = await shop.SetupAsync();
        Assert.Equal(2, setup.MachinesOf(setup.FindSump(Some.SumpTag)!).Count);
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_BadInput_NamesEveryFieldAndStoresNothing(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(levelMm: 300));
        var same = await SameAsync(shop);
        var before = await shop.FootprintAsync();

        Assert.Equal(["area", "walkOrder"], await RefusedAsync(shop, same with { AreaId = Some.Id(), WalkOrder = 10_000 }));
        Assert.Equal(["waterSource"], await RefusedAsync(shop, same with { WaterSourceId = Some.Id() }));
        Assert.Equal(["machines"], await RefusedAsync(shop, same with { MachineIds = [] }));
        Assert.Equal(["machines"], await RefusedAsync(shop, same with { MachineIds = [Some.Id()] }));
        Assert.Equal(["machineTag"], await RefusedAsync(shop, same with { NewMachines = [Machine("m-07")] }));
        Assert.Equal(["lengthMm"], await RefusedAsync(shop, same with { Shape = same.Shape with { LengthMm = 9 } }));
        Assert.Equal(["walkOrder", "fullMarkMm"], await RefusedAsync(shop, same with { WalkOrder = -1, FullMarkMm = 401 }));
        Assert.Equal(["pumpIntakeMm"], await RefusedAsync(shop, same with { PumpIntakeMm = 340 }));
        Assert.Equal(
            new FieldError("brimMm", FieldProblem.UnderALevelRead, 290, 300, Unit: "mm"),
            (await ChangeAsync(shop, same with { Shape = same.Shape with { BrimMm = 290 }, FullMarkMm = 280 })).Field());
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_OlderVersion_IsRefusedAndStoresNothing(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var seen = await SameAsync(shop);
        (await ChangeAsync(shop, seen with { NewMachines = [Machine("M-08")] })).Done();
        var before = await shop.FootprintAsync();

        Assert.Equal(new ChangedMeanwhile(seen.SeenVersion + 1), (await ChangeAsync(shop, seen with { WalkOrder = 9 })).Refused());
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_RetiredOrUnknown_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database, isFilled: false);
        var same = await SameAsync(shop);
        (await shop.Get<RetireSumpHandler>().HandleAsync(new RetireSump(Some.SumpTag), Some.Supervisor, Stop)).Done();

        Assert.Equal(new SumpRetired(Some.SumpTag), (await ChangeAsync(shop, same)).Refused());
        Assert.Equal(new SumpNotFound("S-99"), (await ChangeAsync(shop, same with { SumpTag = "S-99" })).Refused());
    }

    private static NewMachine Machine(string tag) => new(Some.Id(), tag, "Grinder", "grinding", 40, Delivery.Flood);

    private static async Task<ChangeSump> SameAsync(ShopFixture shop)
    {
        var sump = (await shop.SetupAsync()).FindSump(Some.SumpTag)!;
        return new(sump.Tag, sump.AreaId, sump.Shape, sump.FullMarkMm, sump.PumpIntakeMm, sump.WalkOrder, sump.WaterSourceId, [.. sump.Machines.Select(m => m.MachineId)], [], sump.Version);
    }

    private static Task<double?> VolumeAsync(ShopFixture shop) => shop.ReadAsync(db => db.Standings.Where(s => s.SumpId == shop.SumpId).Select(s => s.VolumeLitres).SingleAsync());

    private static async Task<IEnumerable<string>> RefusedAsync(ShopFixture shop, ChangeSump command) => (await ChangeAsync(shop, command)).Fields().Select(e => e.Field);

    private static Task<Result<Saved>> ChangeAsync(ShopFixture shop, ChangeSump command) => shop.Get<ChangeSumpHandler>().HandleAsync(command, Some.Supervisor, Stop);
}
