using ShopFluids.Core.DemoData.Commands;
using ShopFluids.Core.DemoData.Seed;
using ShopFluids.Core.People;
using ShopFluids.Core.People.Pins;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;
using ShopFluids.Rules.Facts;

namespace ShopFluids.Core.DemoData.History;

/// <summary>The shop on its first day: people, areas, fluids, machines with their sumps, care plans.</summary>
internal sealed class DemoOpening(DemoSeed seed, DemoCommands commands, SteppedTime time)
{
    private readonly DemoChance _ids = new(seed.Chance, "set-up");

    /// <summary>Sets the shop up the evening before its first day.</summary>
    public async Task<DemoScene> OpenAsync(DateTime nowUtc, CancellationToken cancellationToken)
    {
        var site = seed.Site;
        await commands.ShipParameters.HandleAsync(cancellationToken);
        (await commands.SaveSite.HandleAsync(
            new SaveSite(NewId(), site.Name, site.TimeZoneId, site.Culture, UnitSystem.Metric, site.Currency, site.DayStartHour, site.ClosedWeekdays, site.MeasurableLitres, site.SafetySheetPlace),
            Actor.Program,
            cancellationToken)).Done();
        var calendar = (await commands.Setups.CurrentAsync(cancellationToken)).Calendar;
        var scene = new DemoScene(seed, commands, time, calendar, calendar.ShopDayOf(nowUtc), await PeopleAsync(cancellationToken));
        await StoresAsync(scene, cancellationToken);
        await SumpsAsync(scene, cancellationToken);
        return scene;
    }

    /// <summary>Puts the steps of a care plan on a sump.</summary>
    public async Task PlanAsync(DemoScene scene, SumpSeed sump, CancellationToken cancellationToken)
    {
        foreach (var step in StepsOf(scene, sump, seed.Sumps.Index().First(s => s.Item.Tag == sump.Tag).Index))
        {
            (await commands.AddCareStep.HandleAsync(step, scene.Supervisor, cancellationToken)).Done();
        }
    }

    /// <summary>The steps of a sump's care plan.</summary>
    /// <param name="place">The sump's place among all, from which its days follow.</param>
    public IEnumerable<AddCareStep> StepsOf(DemoScene scene, SumpSeed sump, int place) => seed.Plans[sump.Plan].Select(step =>
        new AddCareStep(NewId(), sump.Tag, step.Kind, step.Basis, step.IntervalDays, AnchorOf(scene, sump, step, place), PolicyOf(sump, step), step.Parameters ?? [], step.Minutes));

    /// <summary>A sump with its machines.</summary>
    public AddSump SumpOf(SumpSeed sump, int place, Guid areaId, Guid waterId) => new(
        NewId(),
        areaId,
        sump.Tag,
        sump.Shape.ToShape(),
        sump.FullMarkMm,
        sump.PumpIntakeMm,
        place + 1,
        waterId,
        [.. sump.Machines.Select(m => new NewMachine(NewId(), m.Tag, m.Name, m.Process, m.WeeklyHours, m.Delivery))]);

    // The weekly test falls on the sump's own weekday, a monthly one on the same in one of the next three weeks; the rest is spread.
    private DateOnly AnchorOf(DemoScene scene, SumpSeed sump, StepSeed step, int place) => step.Kind switch
    {
        Rules.TaskKind.Test when step.IntervalDays > 7 => scene.Day(-sump.TestedBeforeToday + (7 * ((place % 3) + 1)) - (step.IntervalDays * ((7 * seed.Weeks / step.IntervalDays) + 1))),
        Rules.TaskKind.Test => scene.FirstDay.AddDays(7 - sump.TestedBeforeToday),
        Rules.TaskKind.DrainClean => scene.Day(sump.FirstDrainDay),
        _ => scene.FirstDay.AddDays(1 + ((place * 3) % step.IntervalDays)),
    };

    // What is due today stays due today, also when that is a closed day: the weekend crew sees to it.
    private static ClosedDayPolicy PolicyOf(SumpSeed sump, StepSeed step) =>
        step.Kind != Rules.TaskKind.Test ? ClosedDayPolicy.Later
        : sump.TestedBeforeToday == 0 ? ClosedDayPolicy.AsIs
        : ClosedDayPolicy.Earlier;

    private async Task<IReadOnlyDictionary<string, Actor>> PeopleAsync(CancellationToken cancellationToken)
    {
        var people = new Dictionary<string, Actor>(StringComparer.Ordinal);
        foreach (var person in seed.People)
        {
            var made = (await commands.MakeAccount.HandleAsync(
                new MakeAccount(NewId(), person.SignInName, person.DisplayName, seed.Password, person.Roles, person.Theme), Actor.Program, cancellationToken)).Done();
            if (person.Pin is { } pin)
            {
                (await commands.SetPin.HandleAsync(new SetPin(made.Id, pin), Actor.Program, cancellationToken)).Done();
            }

            people.Add(person.SignInName, new Actor(made.Id, person.DisplayName));
        }

        return people;
    }

    private async Task StoresAsync(DemoScene scene, CancellationToken cancellationToken)
    {
        var actor = scene.Supervisor;
        foreach (var water in seed.Waters)
        {
            (await commands.AddWaterSource.HandleAsync(
                new AddWaterSource(NewId(), new(water.Name, water.ZeroBrix, water.HardnessMgPerLitre, water.NitrateMgPerLitre, water.NitriteMgPerLitre)), actor, cancellationToken)).Done();
        }

        foreach (var instrument in seed.Instruments)
        {
            (await commands.AddInstrument.HandleAsync(
                new AddInstrument(NewId(), instrument.Tag, instrument.Kind, instrument.Resolution, instrument.Accuracy, instrument.CompensatesTemperature, scene.Day(instrument.CheckedDay)),
                actor,
                cancellationToken)).Done();
        }

        foreach (var fluid in seed.Fluids)
        {
            (await commands.AddFluid.HandleAsync(new AddFluid(NewId(), fluid.Data, fluid.TargetLowPercent, fluid.TargetHighPercent), actor, cancellationToken)).Done();
        }
    }

    private async Task SumpsAsync(DemoScene scene, CancellationToken cancellationToken)
    {
        var actor = scene.Supervisor;
        var areas = new Dictionary<string, Guid>(StringComparer.Ordinal);
        foreach (var (place, area) in seed.Areas.Index())
        {
            areas.Add(area.Name, (await commands.AddArea.HandleAsync(new AddArea(NewId(), area.Name, place + 1), actor, cancellationToken)).Done().Id);
        }

        var waters = (await commands.Setups.CurrentAsync(cancellationToken)).Waters.ToDictionary(w => w.Name, w => w.Id, StringComparer.Ordinal);
        foreach (var (place, sump) in seed.Sumps.Index())
        {
            (await commands.AddSump.HandleAsync(SumpOf(sump, place, areas[sump.Area], waters[sump.Water]), actor, cancellationToken)).Done();
        }
    }

    private Guid NewId() => _ids.NewId(time.UtcNow);
}
