using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Instruments;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.ShopFlags;
using ShopFluids.Core.Time;
using ShopFluids.Core.Tuning;
using ShopFluids.Rules;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Setup;

/// <summary>Changing a fluid, a machine, a water or an instrument: whoever saw an older version is told.</summary>
public sealed class ChangeSetupTests
{
    [Theory, EachDatabase]
    public async Task ChangeMachine_SeenVersion_ChangesItAndStandsInTheRecord(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var machine = await MachineAsync(shop);

        (await ChangeAsync(shop, new ChangeMachine(machine.Id, "Grinder", "grinding", 40, Delivery.Flood | Delivery.Mist, machine.Version))).Done();

        var changed = await MachineAsync(shop);
        Assert.Equal(("M-07", "Grinder", "grinding", 40m, Delivery.Flood | Delivery.Mist), (changed.Tag, changed.Name, changed.Process, changed.WeeklyHours, changed.Delivery));
        Assert.Equal("M-07", await shop.ReadAsync(db => db.RecordEntries.OrderByDescending(e => e.Sequence).Select(e => e.Subject).FirstAsync()));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task ChangeMachine_OlderVersion_IsRefusedAndStoresNothing(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var seen = await MachineAsync(shop);
        (await ChangeAsync(shop, new ChangeMachine(seen.Id, "Grinder", "", 40, Delivery.Flood, seen.Version))).Done();
        var before = await shop.FootprintAsync();

        var refused = (await ChangeAsync(shop, new ChangeMachine(seen.Id, "Lathe", "", 60, Delivery.Flood, seen.Version))).Refused();

        Assert.Equal(new ChangedMeanwhile((await MachineAsync(shop)).Version), refused);
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory, EachDatabase]
    public async Task ChangeMachine_BadFieldsOrUnknown_AreNamed(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var machine = await MachineAsync(shop);

        var errors = Assert.IsType<FieldErrors>((await ChangeAsync(shop, new ChangeMachine(machine.Id, "", "", 169, Delivery.Flood, machine.Version))).Refused());

        Assert.Equal(["machineName", "weeklyHours"], errors.Fields.Select(f => f.Field));
        Assert.Equal(new MachineGone(), (await ChangeAsync(shop, new ChangeMachine(Some.Id(), "Lathe", "", 60, Delivery.Flood, 1))).Refused());
    }

    [Theory, EachDatabase]
    public async Task ChangeFluid_Factor_HoldsForReadingsFromThenOn(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var before = await shop.StoreAsync(Some.Reading(brix: 4m, takenAt: Some.Start.AddHours(-1)));
        var fluid = await FluidAsync(shop);

        (await ChangeAsync(shop, new ChangeFluid(fluid.Id, Data(fluid) with { RefractometerFactor = 2 }, fluid.Version))).Done();

        var after = await shop.StoreAsync(Some.Reading(brix: 4m));
        Assert.Equal((4.0m, 8.0m), (before.Measurements[0].Value, after.Measurements[0].Value));
        Assert.Equal(4.0, await shop.ReadAsync(db => db.Set<Measurement>().Where(m => m.ReadingId == before.ReadingId && m.Parameter == "concentration").Select(m => m.Value).SingleAsync()));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task ChangeFluid_OlderVersion_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var seen = await FluidAsync(shop);
        (await ChangeAsync(shop, new ChangeFluid(seen.Id, Data(seen) with { Biocide = "none" }, seen.Version))).Done();

        var refused = (await ChangeAsync(shop, new ChangeFluid(seen.Id, Data(seen) with { Biocide = "some" }, seen.Version))).Refused();

        Assert.IsType<ChangedMeanwhile>(refused);
        Assert.Equal("none", (await FluidAsync(shop)).Biocide);
    }

    [Theory, EachDatabase]
    public async Task ChangeFluid_NameOfAnotherOrOutOfRange_IsNamed(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        (await shop.Get<AddFluidHandler>().HandleAsync(Some.Fluid(Some.Id(), "Emulsion B"), Some.Supervisor, TestContext.Current.CancellationToken)).Done();
        var fluid = await FluidAsync(shop);

        var errors = Assert.IsType<FieldErrors>((await ChangeAsync(shop, new ChangeFluid(fluid.Id, Data(fluid) with { Name = " emulsion b ", RefractometerFactor = 11, TargetPercent = 60, PremixMaximumPercent = 70 }, fluid.Version))).Refused());

        Assert.Equal(["name", "refractometerFactor", "targetPercent"], errors.Fields.Select(f => f.Field).Order(StringComparer.Ordinal));
        Assert.Equal(new FluidNotFound(), (await ChangeAsync(shop, new ChangeFluid(Some.Id(), Data(fluid) with { Name = "Other" }, 1))).Refused());
        (await ChangeAsync(shop, new ChangeFluid(fluid.Id, Data(fluid) with { Name = "EMULSION A" }, fluid.Version))).Done();
    }

    // 8 Brix on a scale that shows 0.5 for the plain water is 7.5 of fluid; what was read before keeps its own zero.
    [Theory, EachDatabase]
    public async Task ChangeWaterSource_NewZero_CountsForWhatIsReadFromThenOn(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 8));
        var seen = Assert.Single((await shop.SetupAsync()).Waters);

        (await ChangeAsync(shop, new ChangeWaterSource(seen.Id, new("Mains, new tap", 0.5m, 210, null, 0), seen.Version))).Done();

        var changed = Assert.Single((await shop.SetupAsync()).Waters);
        Assert.Equal(("Mains, new tap", 0.5m, 210m, null), (changed.Name, changed.ZeroBrix, changed.HardnessMgPerLitre, changed.NitrateMgPerLitre));
        shop.Clock.Advance(TimeSpan.FromDays(1));
        await shop.StoreAsync(Some.Reading(brix: 8, takenAt: shop.Now));
        var values = await shop.ReadAsync(db => db.Readings.SelectMany(r => r.Measurements, (r, m) => new { r.TakenAtUtc, m.Parameter, m.Value, m.ZeroBrix })
            .Where(m => m.Parameter == ParameterCodes.Concentration).OrderBy(m => m.TakenAtUtc).ToListAsync(TestContext.Current.CancellationToken));
        Assert.Equal([0m, 0.5m], values.Select(v => v.ZeroBrix ?? -1));
        Assert.Equal(7.5 / 8, values[1].Value / values[0].Value, 1e-9);
        Assert.Equal(new ChangedMeanwhile(changed.Version), (await ChangeAsync(shop, new ChangeWaterSource(seen.Id, new("Mains", 0, null, null, null), seen.Version))).Refused());
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // Only the pH was typed wrong: the strength was read with the water of then.
    [Theory, EachDatabase]
    public async Task ChangeWaterSource_ReadingFromBeforeIsCorrected_KeepsItsZero(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var wrong = Some.Reading(brix: 8, ph: 8.8m);
        await shop.StoreAsync(wrong);
        var seen = Assert.Single((await shop.SetupAsync()).Waters);
        (await ChangeAsync(shop, new ChangeWaterSource(seen.Id, new("Mains", 0.5m, 210, null, 0), seen.Version))).Done();

        var right = Some.Reading(brix: 8, ph: 9.0m) with { SupersedesId = wrong.Id, CorrectionReason = "Slip" };
        var preview = (await shop.Get<PreviewReadingQuery>().RunAsync(right, TestContext.Current.CancellationToken)).Done();
        var stored = await shop.StoreAsync(right);

        Assert.Equal(preview.Verdict, stored.Verdict);
        var zeros = await shop.ReadAsync(db => db.Measurements.Where(m => m.Parameter == ParameterCodes.Concentration).Select(m => m.ZeroBrix).ToListAsync(TestContext.Current.CancellationToken));
        Assert.Equal([0m, 0m], zeros.Select(z => z ?? -1));
        Assert.Single(await shop.ReadAsync(db => db.Measurements.Where(m => m.Parameter == ParameterCodes.Concentration).Select(m => m.Value).Distinct().ToListAsync(TestContext.Current.CancellationToken)));
    }

    [Theory, EachDatabase]
    public async Task ChangeWaterSource_BadFieldsOrUnknown_AreNamed(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var seen = Assert.Single((await shop.SetupAsync()).Waters);

        Assert.Equal(["name", "zeroBrix", "hardness", "nitrate", "nitrite"], (await ChangeAsync(shop, new ChangeWaterSource(seen.Id, new(" ", 5.1m, 5001, -1, 1001), seen.Version))).Fields().Select(e => e.Field));
        Assert.Equal(new WaterNotFound(), (await ChangeAsync(shop, new ChangeWaterSource(Some.Id(), new("Well", 0, null, null, null), 1))).Refused());
    }

    [Theory, EachDatabase]
    public async Task ChangeArea_SeenVersion_RenamesItForEverySumpInItAndStandsInTheRecord(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var seen = Assert.Single((await shop.SetupAsync()).Areas);

        (await ChangeAsync(shop, new ChangeArea(seen.Id, "  South bay ", 7, seen.Version))).Done();

        var setup = await shop.SetupAsync();
        Assert.Equal((seen.Id, "South bay", 7), Assert.Single(setup.Areas.Select(a => (a.Id, a.Name, a.WalkOrder))));
        Assert.All(setup.Sumps, s => Assert.Equal(seen.Id, s.AreaId));
        var entry = await shop.ReadAsync(db => db.RecordEntries.OrderByDescending(e => e.Sequence).FirstAsync(TestContext.Current.CancellationToken));
        Assert.Equal((ActCodes.SetupChanged, "South bay"), (entry.Code, entry.Subject));
        Assert.Contains(seen.Name, entry.Changes, StringComparison.Ordinal);
    }

    [Theory, EachDatabase]
    public async Task ChangeArea_BadFieldsUnknownOrChangedMeanwhile_ChangesNothing(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var seen = Assert.Single((await shop.SetupAsync()).Areas);

        Assert.Equal(["name", "walkOrder"], (await ChangeAsync(shop, new ChangeArea(seen.Id, " ", -1, seen.Version))).Fields().Select(e => e.Field));
        Assert.Equal(new AreaNotFound(), (await ChangeAsync(shop, new ChangeArea(Some.Id(), "South bay", 1, 1))).Refused());
        Assert.Equal(new ChangedMeanwhile(seen.Version), (await ChangeAsync(shop, new ChangeArea(seen.Id, "South bay", 1, seen.Version - 1))).Refused());
        Assert.Equal(seen.Name, Assert.Single((await shop.SetupAsync()).Areas).Name);
    }

    [Theory, EachDatabase]
    public async Task ChangeInstrument_SeenVersion_ChangesItAndStandsInTheRecord(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.InstrumentAsync(Some.Refractometer());
        var seen = Assert.Single((await shop.SetupAsync()).Instruments);

        (await ChangeAsync(shop, new ChangeInstrument(seen.Id, 0.2m, 0.3m, false, 14, true, seen.Version))).Done();

        var changed = Assert.Single((await shop.SetupAsync()).Instruments);
        Assert.Equal(("R-1", 0.2m, 0.3m, false, 14, seen.CheckedOn), (changed.Tag, changed.Resolution, changed.Accuracy, changed.CompensatesTemperature, changed.CheckEveryDays ?? 0, changed.CheckedOn));
        Assert.Equal("R-1", await shop.ReadAsync(db => db.RecordEntries.OrderByDescending(e => e.Sequence).Select(e => e.Subject).FirstAsync()));
        Assert.Equal(new ChangedMeanwhile(changed.Version), (await ChangeAsync(shop, new ChangeInstrument(seen.Id, 0.1m, 0.1m, true, null, true, seen.Version))).Refused());
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task ChangeInstrument_BadFieldsOrUnknown_AreNamed(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.InstrumentAsync(Some.Refractometer());
        var seen = Assert.Single((await shop.SetupAsync()).Instruments);

        Assert.Equal(["resolution", "accuracy", "checkEveryDays"], (await ChangeAsync(shop, new ChangeInstrument(seen.Id, 2, 6, true, 0, true, seen.Version))).Fields().Select(e => e.Field));
        var unknown = Some.Id();
        Assert.Equal(new InstrumentNotFound(unknown), (await ChangeAsync(shop, new ChangeInstrument(unknown, 0.1m, 0.1m, true, null, true, 1))).Refused());
    }

    [Theory, EachDatabase]
    public async Task ChangeInstrument_OutOfUse_IsNoLongerOfferedNorAwaitsChecks(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.InstrumentAsync(Some.Refractometer());
        var seen = Assert.Single((await shop.SetupAsync()).Instruments);
        Assert.Equal(1, await LapsesAsync(shop));
        Assert.Single((await EntryAsync(shop)).Instruments);

        (await ChangeAsync(shop, new ChangeInstrument(seen.Id, 0.2m, 0.2m, true, null, false, seen.Version))).Done();

        var away = Assert.Single((await shop.SetupAsync()).Instruments);
        Assert.Equal((new DateOnly(2026, 3, 2), false), (away.OutOfUseSince, away.NeedsChecks));
        Assert.Empty((await EntryAsync(shop)).Instruments);
        Assert.Equal(0, await LapsesAsync(shop));
        shop.Clock.Advance(TimeSpan.FromDays(3));
        (await ChangeAsync(shop, new ChangeInstrument(seen.Id, 0.1m, 0.2m, true, null, false, away.Version))).Done();
        Assert.Equal(away.OutOfUseSince, Assert.Single((await shop.SetupAsync()).Instruments).OutOfUseSince);
        (await ChangeAsync(shop, new ChangeInstrument(seen.Id, 0.1m, 0.2m, true, null, true, away.Version + 1))).Done();
        Assert.Single((await EntryAsync(shop)).Instruments);
        Assert.Equal(1, await LapsesAsync(shop));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // The timer looks each minute.
    private static async Task<int> LapsesAsync(ShopFixture shop)
    {
        await shop.Get<NoticeShopFlagsHandler>().HandleAsync(TestContext.Current.CancellationToken);
        return await shop.ReadAsync(db => db.ShopFlags.CountAsync(f => f.GoneAtUtc == null));
    }

    private static async Task<EntryPage> EntryAsync(ShopFixture shop) => (await new EntryPageQuery(shop.Get<ShopDatabase>(), shop.Get<SetupCache>(), shop.Get<ShopClock>()).RunAsync(Some.SumpTag, TestContext.Current.CancellationToken)).Done();

    private static FluidData Data(Fluid fluid) => new(
        fluid.Name, fluid.Kind, fluid.RefractometerFactor, fluid.TitrationFactor, fluid.TargetPercent, fluid.PremixMinimumPercent, fluid.PremixMaximumPercent, fluid.ShelfLifeDays, fluid.WasteCode, fluid.SafetySheetPlace, fluid.Biocide, fluid.OpenedLifeDays);

    private static async Task<Machine> MachineAsync(ShopFixture shop) => Assert.Single((await shop.SetupAsync()).Machines);

    private static async Task<Fluid> FluidAsync(ShopFixture shop) => (await shop.SetupAsync()).Fluid(shop.FluidId);

    private static Task<Result<Saved>> ChangeAsync(ShopFixture shop, ChangeMachine command) => shop.Get<ChangeMachineHandler>().HandleAsync(command, Some.Supervisor, TestContext.Current.CancellationToken);

    private static Task<Result<Saved>> ChangeAsync(ShopFixture shop, ChangeInstrument command) => shop.Get<ChangeInstrumentHandler>().HandleAsync(command, Some.Supervisor, TestContext.Current.CancellationToken);

    private static Task<Result<Saved>> ChangeAsync(ShopFixture shop, ChangeArea command) => shop.Get<ChangeAreaHandler>().HandleAsync(command, Some.Supervisor, TestContext.Current.CancellationToken);

    private static Task<Result<Saved>> ChangeAsync(ShopFixture shop, ChangeWaterSource command) => shop.Get<ChangeWaterSourceHandler>().HandleAsync(command, Some.Supervisor, TestContext.Current.CancellationToken);

    private static Task<Result<Saved>> ChangeAsync(ShopFixture shop, ChangeFluid command) => shop.Get<ChangeFluidHandler>().HandleAsync(command, Some.Supervisor, TestContext.Current.CancellationToken);
}
