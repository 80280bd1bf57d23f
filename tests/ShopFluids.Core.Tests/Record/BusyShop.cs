using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Care.Shutdowns;
using ShopFluids.Core.Care.Templates;
using ShopFluids.Core.CleanOuts;
using ShopFluids.Core.Displays;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Instruments;
using ShopFluids.Core.People;
using ShopFluids.Core.People.Pins;
using ShopFluids.Core.People.Stations;
using ShopFluids.Core.Record;
using ShopFluids.Core.Record.Sealing;
using ShopFluids.Core.Rejudging;
using ShopFluids.Core.Rounds;
using ShopFluids.Core.ShopFlags;
using ShopFluids.Core.Slides;
using ShopFluids.Core.Stores;
using ShopFluids.Core.Tests.CleanOuts;
using ShopFluids.Core.Tuning;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.SuddenChange;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Pictures;
using ShopFluids.Testing.Shop;

namespace ShopFluids.Core.Tests.Record;

/// <summary>A shop in which everything that is recorded exists at least once. Its record is sealed from the first entry on.</summary>
internal static class BusyShop
{
    public static async Task<ShopFixture> OpenAsync(TestDatabase database)
    {
        var key = RecordKey.Make(RecordFingerprint.OfNothing);
        var shop = await ShopFixture.OpenAsync(database, also: services => services.AddSingleton(new RecordSealer(key)));
        var person = Some.Id();
        (await shop.Get<MakeAccountHandler>().HandleAsync(new MakeAccount(person, "op1", "Op One", "ten signs and more", [Roles.Operator], "light"), Some.Supervisor, default)).Done();
        (await shop.Get<MakeTokenHandler>().HandleAsync(new MakeToken(Some.Id(), "logger", person), Some.Supervisor, default)).Done();
        await StationAsync(shop, person);
        (await shop.Get<SetUpDisplaysHandler>().HandleAsync(new AddDisplay(Some.Id(), "Hall", "shop", shop.AreaId), Some.Supervisor, default)).Done();
        // One whose check has lapsed, for a flag of the shop, and one that is checked.
        await shop.InstrumentAsync(Some.Refractometer());
        var refractometer = Some.Refractometer("R-2");
        await shop.InstrumentAsync(refractometer);
        (await shop.Get<NoteInstrumentCheckHandler>().HandleAsync(new NoteInstrumentCheck(Some.Id(), refractometer.Id, new DateOnly(2026, 3, 2)) { First = new(0, 0.1m) }, Some.Operator, default)).Done();
        await shop.StepAsync(Some.Step(TaskKind.Test));
        await shop.StepAsync(Some.Step(TaskKind.Skim) with { Needs = new("Skim with the belt", "", ["Look for oil", "Skim"]) });
        await shop.StepAsync(Some.Step(TaskKind.Test, basis: IntervalBasis.Risk, parameters: [ParameterCodes.Ph]) with { FloorDays = 2, CeilingDays = 28, AcceptedRiskPercent = 5 });
        (await shop.Get<ApplyCareTemplateHandler>().HandleAsync(new ApplyCareTemplate(Some.SumpTag, FluidKind.SemiSynthetic, MachineUse.Machining, [new(Some.Id(), "chips")]), Some.Supervisor, default)).Done();
        (await shop.Get<PlanShutdownHandler>().HandleAsync(new PlanShutdown(Some.Id(), Some.SumpTag, new DateOnly(2026, 3, 16), new DateOnly(2026, 3, 18), "Spindle repair"), Some.Supervisor, default)).Done();
        var tuned = new SetRule(Some.Id(), SuddenChangeRule.RuleCode, null, shop.SumpId, null, new Dictionary<string, decimal> { [SuddenChangeRule.LeastChanges] = 5 }, "Small sump", 0);
        (await shop.Get<SetRuleHandler>().HandleAsync(tuned, Some.Supervisor, default)).Done();
        (await shop.Get<SkipStopsHandler>().HandleAsync(new SkipStops(Some.Id(), [Some.SumpTag], SkipReason.MachineRunning, ""), Some.Operator, default)).Done();
        var wrong = Some.Reading(ph: 9.4m, note: "First") with { Photo = SamplePicture.Clean() };
        await shop.StoreAsync(wrong);
        await shop.StoreAsync(Some.Reading(ph: 9.2m, supersedes: wrong.Id, reason: "Slip"));
        shop.Clock.Advance(TimeSpan.FromHours(1));
        (await shop.AddAsync(Some.Addition(shop.LotId, removed: 5, at: shop.Now))).Done();
        (await shop.AddAsync(Some.Addition(shop.LotId, water: 0, concentrate: 0.2m, at: shop.Now))).Done();
        shop.Clock.Advance(TimeSpan.FromHours(1));
        await shop.StoreAsync(Some.Reading(brix: 4.0m, ph: 8.4m, levelMm: 180, takenAt: shop.Now));
        await DosesAsync(shop);
        (await shop.Get<AdjustLotHandler>().HandleAsync(new AdjustLot(Some.Id(), shop.LotId, AdjustmentKind.Counted, 180, "Dipstick"), Some.Supervisor, default)).Done();
        (await shop.Get<RejudgeHandler>().HandleAsync(new Rejudge(Some.Id(), null, "Limits changed"), Some.Supervisor, default)).Done();
        await shop.Get<NoticeShopFlagsHandler>().HandleAsync(default);
        shop.Clock.Advance(TimeSpan.FromHours(1));
        (await shop.Get<StartSlideHandler>().HandleAsync(new StartSlide(Some.Id(), Some.SumpTag, ParameterCodes.Bacteria, SlideIncubation.Room, shop.Now), Some.Operator, default)).Done();
        await new CleanOutRun(shop).UpToAsync(CleanOutStepKind.Plan);
        return shop;
    }

    // One that was a mistake, and one that was given against its label.
    private static async Task DosesAsync(ShopFixture shop)
    {
        var wrong = Some.Dose() with { GivenAtUtc = shop.Now, Amount = 60, VolumeLitres = 90 };
        (await shop.Get<NoteDoseHandler>().HandleAsync(wrong, Some.Operator, isSupervisor: false, default)).Done();
        (await shop.Get<StrikeDoseHandler>().HandleAsync(new StrikeDose(Some.Id(), wrong.Id, "Wrong sump"), Some.Supervisor, default)).Done();
        (await shop.Get<NoteDoseHandler>().HandleAsync(wrong with { Id = Some.Id(), Amount = 160, AgainstLabelReason = "Poured twice" }, Some.Supervisor, isSupervisor: true, default)).Done();
    }

    private static async Task StationAsync(ShopFixture shop, Guid person)
    {
        var offered = (await shop.Get<SetUpStationsHandler>().HandleAsync(new AddStation(Some.Id(), "South", "By the wash", "shop"), Some.Supervisor, default)).Done();
        var enrolled = (await shop.Get<EnrolStationHandler>().HandleAsync(new EnrolStation(offered.Code), default)).Done();
        (await shop.Get<SetPinHandler>().HandleAsync(new SetPin(person, "204816"), Some.Supervisor, default)).Done();
        await shop.StoreAsync(Some.Reading(note: "At the station"), new Actor(person, "Op One", new ActorStation(enrolled.Id, enrolled.Name)));
    }
}
