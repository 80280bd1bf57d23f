using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Finds;
using ShopFluids.Core.Charges;
using ShopFluids.Core.DemoData.Commands;
using ShopFluids.Core.Flags;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;

namespace ShopFluids.Core.DemoData.History;

/// <summary>The work at a sump besides reading it: skim, change filters, look for causes, drain and refill.</summary>
internal sealed class DemoCare(DemoScene scene, DemoStores stores)
{
    private static readonly TimeSpan Short = TimeSpan.FromMinutes(4);
    private static readonly TimeSpan Cleaning = TimeSpan.FromMinutes(95);

    /// <summary>Does a task that is not a test; rarely one is skipped with a reason.</summary>
    public async Task DoAsync(SumpModel sump, OpenTask task, CancellationToken cancellationToken)
    {
        if (task.Kind == TaskKind.DrainClean)
        {
            await RefillAsync(sump, task, cancellationToken);
            return;
        }

        var isSkipped = task.Kind == TaskKind.ChangeFilter && sump.Chance.Happens(0.06);
        await EndAsync(task, isSkipped ? new EndTask(task.Id, TaskState.Skipped, "Pressure drop still low, filter left in") : new EndTask(task.Id, TaskState.Done, Found: FoundAt(sump, task.Kind)), sump, cancellationToken);
        if (task.Kind == TaskKind.Skim)
        {
            sump.Skim();
        }

        scene.Time.Advance(Short);
    }

    /// <summary>The first fill of a sump.</summary>
    public async Task FillAsync(SumpModel sump, CancellationToken cancellationToken)
    {
        var setup = await scene.Commands.Setups.CurrentAsync(cancellationToken);
        var litres = (decimal)Math.Floor(sump.FullLitres);
        var concentrate = decimal.Round(litres * sump.Fluid.Data.TargetPercent / 100, 1);
        var day = scene.Calendar.ShopDayOf(scene.Time.UtcNow);
        var fluid = setup.Fluids.Single(f => f.Name == sump.Fluid.Data.Name).Id;
        (await scene.Commands.Fill.HandleAsync(
            new FillSump(NewId(sump), sump.Seed.Tag, fluid, scene.Time.UtcNow, litres - concentrate, concentrate, stores.Draw(sump.Fluid.Data.Name, concentrate, day)),
            scene.OperatorOf(sump),
            isSupervisor: false,
            cancellationToken)).Done();
        sump.Fill((double)(litres - concentrate), (double)concentrate);
    }

    /// <summary>Drains, cleans and refills; the task that asked for it, if one did, is done.</summary>
    public async Task RefillAsync(SumpModel sump, OpenTask? task, CancellationToken cancellationToken)
    {
        (await scene.Commands.Drain.HandleAsync(
            new DrainSump(NewId(sump), sump.Seed.Tag, scene.Time.UtcNow, decimal.Round((decimal)sump.Litres, 0)), scene.OperatorOf(sump), cancellationToken)).Done();
        scene.Time.Advance(Cleaning);
        if (task is not null)
        {
            // Work that a flag asked for ended with the charge; ending it again is the same act.
            await EndAsync(task, new EndTask(task.Id, TaskState.Done), sump, cancellationToken);
        }

        await FillAsync(sump, cancellationToken);
        scene.Time.Advance(Short);
    }

    public async Task CloseFlagsAsync(SumpModel sump, string reason, CancellationToken cancellationToken)
    {
        await using var db = await scene.Commands.OpenAsync(cancellationToken);
        foreach (var flag in await db.Flags.Where(f => f.EndedAtUtc == null && db.Sumps.Any(s => s.Id == f.SumpId && s.Tag == sump.Seed.Tag)).OrderBy(f => f.Rule).ThenBy(f => f.Parameter).Select(f => f.Id).ToListAsync(cancellationToken))
        {
            (await scene.Commands.CloseFlag.HandleAsync(new CloseFlag(flag, reason), scene.Supervisor, cancellationToken)).Done();
        }
    }

    /// <summary>Gives the open corrective work of a sump to a person.</summary>
    public async Task AssignAsync(SumpModel sump, string signInName, CancellationToken cancellationToken)
    {
        await using var db = await scene.Commands.OpenAsync(cancellationToken);
        foreach (var task in await db.CareTasks.Where(t => t.State == TaskState.Open && t.StepId == null && db.Sumps.Any(s => s.Id == t.SumpId && s.Tag == sump.Seed.Tag)).OrderBy(t => t.Kind).ThenBy(t => t.Cause).Select(t => t.Id).ToListAsync(cancellationToken))
        {
            (await scene.Commands.AssignTask.HandleAsync(new AssignTask(task, scene.People[signInName].PersonId), scene.Supervisor, cancellationToken)).Done();
        }
    }

    private async Task EndAsync(OpenTask task, EndTask command, SumpModel sump, CancellationToken cancellationToken) =>
        (await scene.Commands.EndTask.HandleAsync(command with { TaskId = task.Id }, scene.OperatorOf(sump), isSupervisor: false, cancellationToken)).Done();

    // A film of 2 mm where oil covers a fluid 300 mm deep.
    private static TypedFind? FoundAt(SumpModel sump, TaskKind kind) => kind == TaskKind.Skim
        ? new(FindNames.OilLitres, decimal.Round((decimal)(sump.FullLitres / 300 * 2 * sump.OilPercent / 100), 1), null)
        : null;

    private Guid NewId(SumpModel sump) => sump.Chance.NewId(scene.Time.UtcNow);
}
