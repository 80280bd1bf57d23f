using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.DemoData.Commands;
using ShopFluids.Core.DemoData.History;
using ShopFluids.Core.DemoData.Seed;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;

namespace ShopFluids.Core.DemoData.Generated;

/// <summary>The sumps of a generated shop with their machines and care plans; one act of set-up for each, as by hand.</summary>
internal sealed class GeneratedOpening(DemoScene scene, DemoOpening opening, BulkWrite write)
{
    public async Task<IReadOnlyList<SumpActs>> OpenAsync(CancellationToken cancellationToken)
    {
        var before = await scene.Commands.Setups.CurrentAsync(cancellationToken);
        var areas = before.Areas.ToDictionary(a => a.Name, a => a.Id, StringComparer.Ordinal);
        var waters = before.Waters.ToDictionary(w => w.Name, w => w.Id, StringComparer.Ordinal);
        foreach (var (place, sump) in scene.Seed.Sumps.Index())
        {
            scene.Time.Advance(TimeSpan.FromSeconds(1));
            Add(sump, place, areas[sump.Area], waters[sump.Water]);
        }

        await write.CommitAsync(isLast: false, cancellationToken);
        await write.BeginAsync(cancellationToken);
        var setup = await scene.Commands.Setups.CurrentAsync(cancellationToken);
        return [.. scene.Seed.Sumps.Select(s => new SumpActs(setup, Known(setup, s), SumpModel.Of(scene.Seed, s)))];
    }

    private void Add(SumpSeed seed, int place, Guid areaId, Guid waterId)
    {
        var chance = new DemoChance(scene.Seed.Chance, $"set-up {seed.Tag}");
        var command = opening.SumpOf(seed, place, areaId, waterId);
        var made = AddSumpHandler.Make(command, chance.NewId(scene.Time.UtcNow));
        write.Record(new Act(ActCodes.SetupChanged, scene.Supervisor, scene.Time.UtcNow, seed.Tag), [made.Sump, .. made.Sump.Machines, .. made.Machines, made.Limits], []);
        var plan = new CarePlan(chance.NewId(scene.Time.UtcNow), made.Sump.Id);
        var steps = opening.StepsOf(scene, seed, place).Select(s => CareStepMaker.Made(s)(plan.Id));
        write.Record(new Act(ActCodes.SetupChanged, scene.Supervisor, scene.Time.UtcNow, seed.Tag), [plan, .. steps], []);
    }

    private static Sumps.Sump Known(ShopSetup setup, SumpSeed seed) =>
        setup.FindSump(seed.Tag) ?? throw new InvalidOperationException($"{seed.Tag} was not stored.");
}
