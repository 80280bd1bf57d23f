using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Limits;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Setup;

/// <summary>Setting the shop up by hand: what is refused and where, and that a command sent twice is done once.</summary>
public sealed class SetupCommandsTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task SaveSite_BadInput_NamesEveryField(TestDatabase database)
    {
        await using var shop = ShopFixture.Empty(database);
        var bad = Some.Site() with { Name = " ", TimeZoneId = "Mars/Olympus", Culture = "xx", Currency = "EURO", DayStartHour = 24, ClosedWeekdays = 127, MeasurableLitres = 0, SafetySheetPlace = new string('x', 201) };

        var errors = (await shop.Get<SaveSiteHandler>().HandleAsync(bad, Some.Supervisor, Stop)).Fields();

        Assert.Equal(["closedWeekdays", "culture", "currency", "dayStartHour", "measurableLitres", "name", "safetySheetPlace", "timeZone"], errors.Select(e => e.Field).Order(StringComparer.Ordinal));
        Assert.Equal(0, await shop.CountAsync<Site>());
    }

    // Kept in their order within the shop day, which begins at 06:00; none is none.
    [Theory]
    [EachDatabase("22:00, 6:00;14:00", "14:00 22:00 06:00")]
    [EachDatabase("  ", null)]
    public async Task SaveSite_ShiftEnds_AreKeptInTheirOrder(TestDatabase database, string typed, string? kept)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        (await shop.Get<SaveSiteHandler>().HandleAsync(Some.Site() with { ShiftEnds = typed }, Some.Supervisor, Stop)).Done();

        var setup = await shop.SetupAsync();
        Assert.Equal(kept, setup.Site?.ShiftEnds);
        Assert.Equal(kept?.Split(' ').Length ?? 0, setup.Calendar.ShiftEnds.Count);
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory]
    [EachDatabase("25:00")]
    [EachDatabase("14:00 14:00")]
    [EachDatabase("two o'clock")]
    [EachDatabase("1:00 2:00 3:00 4:00 5:00 6:00 7:00")]
    public async Task SaveSite_NoClockTimes_IsRefusedAtTheField(TestDatabase database, string typed)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        var error = (await shop.Get<SaveSiteHandler>().HandleAsync(Some.Site() with { ShiftEnds = typed }, Some.Supervisor, Stop)).Field();

        Assert.Equal(("shiftEnds", FieldProblem.NotClockTimes, typed), (error.Field, error.Problem, error.Detail));
    }

    [Theory, EachDatabase]
    public async Task SaveSite_ChangedMeanwhile_IsRefusedWithTheVersion(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var handler = shop.Get<SaveSiteHandler>();
        var seen = (await shop.SetupAsync()).Site!.Version;
        (await handler.HandleAsync(Some.Site() with { Name = "Hall 4", SeenVersion = seen }, Some.Supervisor, Stop)).Done();

        Assert.Equal(new ChangedMeanwhile(seen + 1), (await handler.HandleAsync(Some.Site() with { Name = "Hall 5", SeenVersion = seen }, Some.Supervisor, Stop)).Refused());
        Assert.Equal("Hall 4", (await shop.SetupAsync()).Site!.Name);
        Assert.Equal(1, await shop.CountAsync<Site>());
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task AddArea_WithoutSiteOrName_IsRefused(TestDatabase database)
    {
        await using var shop = ShopFixture.Empty(database);

        Assert.IsType<NoSite>((await shop.Get<AddAreaHandler>().HandleAsync(new AddArea(Some.Id(), "Turning", 1), Some.Supervisor, Stop)).Refused());
        Assert.Equal(["name", "walkOrder"], (await shop.Get<AddAreaHandler>().HandleAsync(new AddArea(Some.Id(), "", -1), Some.Supervisor, Stop)).Fields().Select(e => e.Field));
    }

    [Theory, EachDatabase]
    public async Task AddSump_BadInput_NamesEveryField(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var good = Some.Sump(Some.Id(), shop.AreaId, "S-08", "M-08");
        var before = await shop.FootprintAsync();

        Assert.Equal(["sumpTag"], await RefusedAsync(shop, good with { Tag = "s-07" }));
        Assert.Equal(["sumpTag"], await RefusedAsync(shop, good with { Tag = "S 8" }));
        Assert.Equal(["area"], await RefusedAsync(shop, good with { AreaId = Some.Id() }));
        Assert.Equal(["waterSource"], await RefusedAsync(shop, good with { WaterSourceId = Some.Id() }));
        Assert.Equal(["machineTag"], await RefusedAsync(shop, good with { Machines = [] }));
        Assert.Equal(["machineTag"], await RefusedAsync(shop, good with { Machines = [good.Machines[0] with { Tag = "m-07" }] }));
        Assert.Equal(["machineTag", "machineTag"], await RefusedAsync(shop, good with { Machines = [good.Machines[0], good.Machines[0] with { Id = Some.Id() }] }));
        Assert.Equal(["machineName", "weeklyHours"], await RefusedAsync(shop, good with { Machines = [good.Machines[0] with { Name = "", WeeklyHours = 169 }] }));
        Assert.Equal(["lengthMm"], await RefusedAsync(shop, good with { Shape = good.Shape with { LengthMm = 9 } }));
        Assert.Equal(["displacedLitres"], await RefusedAsync(shop, good with { Shape = good.Shape with { DisplacedLitres = 181 } }));
        Assert.Equal(["fullMarkMm"], await RefusedAsync(shop, good with { FullMarkMm = 401 }));
        Assert.Equal(["pumpIntakeMm"], await RefusedAsync(shop, good with { PumpIntakeMm = 340 }));
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory, EachDatabase]
    public async Task AddSump_StrappingTable_MustAscendAndEndAtTheBrim(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var table = new SumpShape(GeometryKind.StrappingTable, 0, 0, 400, 0, [new(0, 0), new(100, 30), new(400, 200)]);
        var good = Some.Sump(Some.Id(), shop.AreaId, "S-08", "M-08", shape: table);

        Assert.Equal(["strappingTable"], await RefusedAsync(shop, good with { Shape = table with { Points = [new(0, 0)] } }));
        Assert.Equal(["strappingTable"], await RefusedAsync(shop, good with { Shape = table with { Points = [new(0, 0), new(200, 30), new(200, 50), new(400, 200)] } }));
        Assert.Equal(["strappingTable"], await RefusedAsync(shop, good with { Shape = table with { Points = [new(10, 0), new(400, 200)] } }));
        Assert.Equal(["brimMm"], await RefusedAsync(shop, good with { Shape = table with { BrimMm = 390 } }));
        await shop.SumpAsync(good);
        (await shop.FillAsync(Some.Fill(Some.Id(), shop.FluidId, shop.LotId, "S-08", water: 90))).Done();
        await shop.StoreAsync(Some.Reading(levelMm: 100, sump: "S-08"));

        Assert.Equal(30.0, await shop.ReadAsync(db => db.Standings.Where(s => s.SumpId == good.Id).Select(s => s.VolumeLitres).SingleAsync()));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // What the recipe of a top-up cannot be worked out for is refused here, not at the first reading.
    [Theory, EachDatabase]
    public async Task AddSump_TooLargeOrTooSmallForARecipe_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database, Some.Site() with { MeasurableLitres = 10 });
        var handler = shop.Get<AddSumpHandler>();
        var good = Some.Sump(Some.Id(), shop.AreaId, "S-08", "M-08");
        var table = new SumpShape(GeometryKind.StrappingTable, 0, 0, 400, 0, [new(0, 0), new(400, 1_000_001)]);

        Assert.Equal(
            new FieldError("lengthMm", FieldProblem.OutOfRange, 20_000, 10, 10_000, "mm"),
            (await handler.HandleAsync(good with { Shape = good.Shape with { LengthMm = 20_000, WidthMm = 20_000, BrimMm = 5000 } }, Some.Supervisor, Stop)).Field());
        Assert.Equal(new FieldError("strappingTable", FieldProblem.OutOfRange, 1_000_001, 0, 1_000_000, "L"), (await handler.HandleAsync(good with { Shape = table }, Some.Supervisor, Stop)).Field());
        Assert.Equal(new FieldError("fullMarkMm", FieldProblem.TooLittleToMeasure, 6, 10, Unit: "L"), (await handler.HandleAsync(good with { FullMarkMm = 12, PumpIntakeMm = 0 }, Some.Supervisor, Stop)).Field());

        (await handler.HandleAsync(good with { FullMarkMm = 20, PumpIntakeMm = 0 }, Some.Supervisor, Stop)).Done();
        (await shop.FillAsync(Some.Fill(Some.Id(), shop.FluidId, shop.LotId, "S-08", water: 9, concentrate: 1))).Done();
        Assert.Equal(3, (await shop.StoreAsync(Some.Reading(levelMm: 10, sump: "S-08"))).Measurements.Count);
    }

    [Theory, EachDatabase]
    public async Task AddSump_LargestShape_TakesAFullReading(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var good = Some.Sump(Some.Id(), shop.AreaId, "S-08", "M-08");
        await shop.SumpAsync(good with { Shape = good.Shape with { LengthMm = 10_000, WidthMm = 20_000, BrimMm = 5000 } });
        (await shop.FillAsync(Some.Fill(Some.Id(), shop.FluidId, shop.LotId, "S-08"))).Done();

        Assert.Equal(3, (await shop.StoreAsync(Some.Reading(brix: 5, levelMm: 300, sump: "S-08"))).Measurements.Count);
    }

    [Theory, EachDatabase]
    public async Task SaveSite_StepLargerThanASump_IsRefusedWithTheLargest(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var small = Some.Sump(Some.Id(), shop.AreaId, "S-08", "M-08") with { FullMarkMm = 12, PumpIntakeMm = 0 };
        await shop.SumpAsync(small);
        var handler = shop.Get<SaveSiteHandler>();

        Assert.Equal(new FieldError("measurableLitres", FieldProblem.OutOfRange, 6.5m, 0.01m, 6, "L"), (await handler.HandleAsync(Some.Site() with { MeasurableLitres = 6.5m }, Some.Supervisor, Stop)).Field());
        (await handler.HandleAsync(Some.Site() with { MeasurableLitres = 6 }, Some.Supervisor, Stop)).Done();
        (await shop.Get<RetireSumpHandler>().HandleAsync(new RetireSump("S-08"), Some.Supervisor, Stop)).Done();
        (await handler.HandleAsync(Some.Site() with { MeasurableLitres = 10 }, Some.Supervisor, Stop)).Done();
    }

    [Theory, EachDatabase]
    public async Task AddFluid_BadInput_NamesEveryField(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var good = Some.Fluid(Some.Id(), "Emulsion B");

        Assert.Equal(["name"], await RefusedAsync(shop, good with { Data = good.Data with { Name = " emulsion a " } }));
        Assert.Equal(["refractometerFactor", "titrationFactor"], await RefusedAsync(shop, good with { Data = good.Data with { RefractometerFactor = 0, TitrationFactor = 0 } }));
        Assert.Equal(["targetPercent"], await RefusedAsync(shop, good with { Data = good.Data with { TargetPercent = 9.1m } }));
        Assert.Equal("targetHigh", (await RefusedAsync(shop, good with { TargetLowPercent = 9, TargetHighPercent = 8 }))[0]);
        Assert.Equal(["shelfLifeDays"], await RefusedAsync(shop, good with { Data = good.Data with { ShelfLifeDays = 0 } }));
    }

    [Theory, EachDatabase]
    public async Task ReceiveLot_BadInput_NamesEveryField(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var good = Some.Lot(Some.Id(), shop.FluidId, "L-2");
        var handler = shop.Get<ReceiveLotHandler>();

        Assert.Equal("number", (await handler.HandleAsync(good with { Number = " l-1 " }, Some.Supervisor, Stop)).Field().Field);
        Assert.Equal("litres", (await handler.HandleAsync(good with { Litres = 0 }, Some.Supervisor, Stop)).Field().Field);
        Assert.Equal("fluid", (await handler.HandleAsync(good with { FluidId = Some.Id() }, Some.Supervisor, Stop)).Field().Field);
        Assert.Equal("expiresOn", (await handler.HandleAsync(good with { ExpiresOn = good.ReceivedOn.AddDays(-1) }, Some.Supervisor, Stop)).Field().Field);
        Assert.Equal("receivedOn", (await handler.HandleAsync(good with { ReceivedOn = new DateOnly(2026, 3, 4) }, Some.Supervisor, Stop)).Field().Field);
        Assert.Equal("pricePerLitre", (await handler.HandleAsync(good with { PricePerLitre = -1 }, Some.Supervisor, Stop)).Field().Field);
    }

    [Theory, EachDatabase]
    public async Task AddCareStep_BadInput_NamesEveryField(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var handler = shop.Get<AddCareStepHandler>();
        var test = Some.Step(TaskKind.Test);

        Assert.Equal(["intervalDays", "estimatedMinutes"], (await handler.HandleAsync(test with { IntervalDays = 0, EstimatedMinutes = -1 }, Some.Supervisor, Stop)).Fields().Select(e => e.Field));
        Assert.Equal(new FieldError("parameters", FieldProblem.Missing), (await handler.HandleAsync(test with { Parameters = [] }, Some.Supervisor, Stop)).Field());
        Assert.Equal(new FieldError("parameters", FieldProblem.UnknownParameter, Detail: "luck"), (await handler.HandleAsync(test with { Parameters = ["luck"] }, Some.Supervisor, Stop)).Field());
        Assert.Equal("kind", (await handler.HandleAsync(test with { Kind = (TaskKind)99 }, Some.Supervisor, Stop)).Field().Field);
        Assert.Equal(new FieldError("kind", FieldProblem.UnknownChoice), (await handler.HandleAsync(test with { Kind = TaskKind.Adjust }, Some.Supervisor, Stop)).Field());
        Assert.Equal(new FieldError("basis", FieldProblem.UnknownChoice), (await handler.HandleAsync(test with { Basis = (IntervalBasis)9 }, Some.Supervisor, Stop)).Field());
        Assert.Equal(new FieldError("closedDays", FieldProblem.UnknownChoice), (await handler.HandleAsync(test with { ClosedDays = (ClosedDayPolicy)9 }, Some.Supervisor, Stop)).Field());
        var today = new DateOnly(2026, 3, 2);
        var badDay = new FieldError("anchor", FieldProblem.DayOutOfRange, FirstDay: today.AddDays(-3660), LastDay: today.AddDays(3660));
        Assert.Equal(badDay, (await handler.HandleAsync(test with { Anchor = DateOnly.MaxValue }, Some.Supervisor, Stop)).Field());
        Assert.Equal(badDay, (await handler.HandleAsync(test with { Anchor = DateOnly.MinValue }, Some.Supervisor, Stop)).Field());
        (await handler.HandleAsync(test with { Anchor = today.AddDays(3660), IntervalDays = 3660 }, Some.Supervisor, Stop)).Done();
        Assert.IsType<SumpNotFound>((await handler.HandleAsync(test with { SumpTag = "S-99" }, Some.Supervisor, Stop)).Refused());
    }

    [Theory, EachDatabase]
    public async Task Commands_SentTwice_AreDoneOnce(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var sump = Some.Sump(Some.Id(), shop.AreaId, "S-08", "M-08");
        var step = Some.Step(TaskKind.Skim);
        var instrument = Some.PhMeter();
        await shop.SumpAsync(sump);
        await shop.StepAsync(step);
        await shop.InstrumentAsync(instrument);
        var before = await shop.FootprintAsync();

        await shop.SumpAsync(sump);
        await shop.StepAsync(step);
        await shop.InstrumentAsync(instrument);
        (await shop.Get<AddAreaHandler>().HandleAsync(new AddArea(shop.AreaId, "Turning", 1), Some.Supervisor, Stop)).Done();
        (await shop.Get<AddWaterSourceHandler>().HandleAsync(Some.Water(shop.WaterId), Some.Supervisor, Stop)).Done();
        (await shop.Get<AddFluidHandler>().HandleAsync(Some.Fluid(shop.FluidId), Some.Supervisor, Stop)).Done();
        (await shop.Get<ReceiveLotHandler>().HandleAsync(Some.Lot(shop.LotId, shop.FluidId), Some.Supervisor, Stop)).Done();
        await shop.Get<ShipParametersHandler>().HandleAsync(Stop);

        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory, EachDatabase]
    public async Task AddInstrumentAndWater_BadInput_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.InstrumentAsync(Some.PhMeter());

        Assert.Equal(["resolution", "accuracy", "tag"], (await shop.Get<AddInstrumentHandler>().HandleAsync(Some.PhMeter("ph-1") with { Resolution = 0, Accuracy = -1 }, Some.Supervisor, Stop)).Fields().Select(e => e.Field));
        Assert.Equal(["name", "zeroBrix", "hardness"], (await shop.Get<AddWaterSourceHandler>().HandleAsync(new AddWaterSource(Some.Id(), new("", 6, -1, null, null)), Some.Supervisor, Stop)).Fields().Select(e => e.Field));
    }

    [Theory, EachDatabase]
    public async Task RetireSump_Empty_TakesNoMoreReadings(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Skim));
        var handler = shop.Get<RetireSumpHandler>();

        Assert.IsType<Core.Charges.ChargeStillOpen>((await handler.HandleAsync(new RetireSump("S-07"), Some.Supervisor, Stop)).Refused());
        (await shop.DrainAsync(Some.Start)).Done();
        (await handler.HandleAsync(new RetireSump("S-07"), Some.Supervisor, Stop)).Done();

        Assert.IsType<SumpRetired>((await shop.RecordAsync(Some.Reading())).Refused());
        Assert.IsType<SumpRetired>((await shop.FillAsync(Some.Fill(Some.Id(), shop.FluidId, shop.LotId, at: Some.Start))).Refused());
        Assert.Equal(0, await shop.ReadAsync(db => db.CareTasks.CountAsync(t => t.State == Core.Care.TaskState.Open)));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task ShipParameters_NewShop_HasEveryShippedOneOnce(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        Assert.Equal(ShippedParameters.All().Select(p => p.Code), (await shop.SetupAsync()).Parameters.Select(p => p.Code));
        Assert.Equal(ShippedParameters.All().Count, await shop.CountAsync<Parameter>());
    }

    private static async Task<List<string>> RefusedAsync(ShopFixture shop, AddSump command) =>
        [.. (await shop.Get<AddSumpHandler>().HandleAsync(command, Some.Supervisor, Stop)).Fields().Select(e => e.Field)];

    private static async Task<List<string>> RefusedAsync(ShopFixture shop, AddFluid command) =>
        [.. (await shop.Get<AddFluidHandler>().HandleAsync(command, Some.Supervisor, Stop)).Fields().Select(e => e.Field)];
}
