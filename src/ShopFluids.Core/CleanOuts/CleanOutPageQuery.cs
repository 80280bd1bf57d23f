using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Rounds;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;
using ShopFluids.Rules;
using ShopFluids.Rules.Advice;

namespace ShopFluids.Core.CleanOuts;

public sealed class CleanOutPageQuery(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    private readonly KeepAwayQuery _keepAway = new();

    /// <summary>The page, or why this sump cannot be cleaned out: not known, retired, empty.</summary>
    public async Task<Result<CleanOutPage>> RunAsync(string sumpTag, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        return SumpWithCharge.Find(setup, sumpTag).IsRefused(out var refusal, out var found) ? refusal : await PageAsync(db, setup, found.Sump, found.Charge, cancellationToken);
    }

    /// <summary>The first reading that a clean-out ended with; null when it did not, or is not known.</summary>
    public async Task<Guid?> ReadingOfAsync(Guid cleanOutId, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        return await db.CleanOuts.AsNoTracking().Where(c => c.Id == cleanOutId).Select(c => c.ReadingId).FirstOrDefaultAsync(cancellationToken);
    }

    private async Task<CleanOutPage> PageAsync(ShopFluidsDbContext db, ShopSetup setup, Sump sump, Charge charge, CancellationToken cancellationToken)
    {
        var now = clock.UtcNow;
        var fluid = setup.Fluid(charge.FluidId);
        var standing = await db.Standings.AsNoTracking().FirstOrDefaultAsync(s => s.SumpId == sump.Id, cancellationToken);
        var volume = standing?.VolumeLitres;
        var open = await db.CleanOuts.AsNoTracking().FirstOrDefaultAsync(c => c.ChargeId == charge.Id && c.EndedAtUtc == null, cancellationToken);
        var done = open is null ? [] : await db.CleanOutSteps.AsNoTracking().Where(s => s.CleanOutId == open.Id).ToListAsync(cancellationToken);
        var people = done.Select(s => s.PersonId).ToHashSet();
        var names = await db.Users.AsNoTracking().Where(p => people.Contains(p.Id)).ToDictionaryAsync(p => p.Id, p => p.DisplayName, cancellationToken);
        var choice = done.Find(s => s.Kind == CleanOutStepKind.Plan)?.Noted.Choice ?? CleanOutNumbers.Usual(sump, volume, await LastChoiceAsync(db, sump, cancellationToken));
        var due = await db.CareTasks.AsNoTracking()
            .Where(t => t.SumpId == sump.Id && t.Kind == TaskKind.DrainClean && t.State == TaskState.Open)
            .MinAsync(t => (DateTime?)t.DueAtUtc, cancellationToken);
        return new(
            SumpPlace.Of(setup, sump, volume),
            fluid.Name,
            fluid.SafetySheetPlace,
            charge.Number,
            now,
            open?.Id,
            [.. CleanOutSteps.Of(choice, done.Select(s => s.Kind)).Select(k => done.Find(s => s.Kind == k) is { } step
                ? new CleanOutPageStep(k, step.Noted, step.DoneAtUtc, step.PersonId, names.GetValueOrDefault(step.PersonId, ""), step.Round)
                : new CleanOutPageStep(k, null, null, null, "", 0))],
            choice,
            CleanOutNumbers.Of(choice, sump, fluid, setup.Site?.MeasurableLitres ?? 0.1m),
            due,
            WasteCodes.OfFluid(fluid),
            (double)fluid.TargetPercent,
            await LotChoices.OfFluidAsync(db, fluid.Id, setup.Calendar.ShopDayOf(now), cancellationToken))
        {
            WarnsOfGas = CautionAdvice.WarnsOfGas(standing?.Facts),
            KeepAway = await _keepAway.OfSumpAsync(db, sump.Id, now, cancellationToken),
        };
    }

    // What the cleaner and the machine ask for is the same as last time.
    private static async Task<CleanOutChoice?> LastChoiceAsync(ShopFluidsDbContext db, Sump sump, CancellationToken cancellationToken)
    {
        var last = await (from step in db.CleanOutSteps.AsNoTracking()
                          join cleanOut in db.CleanOuts on step.CleanOutId equals cleanOut.Id
                          where cleanOut.SumpId == sump.Id && cleanOut.ReadingId != null && step.Kind == CleanOutStepKind.Plan
                          orderby cleanOut.EndedAtUtc descending
                          select step).FirstOrDefaultAsync(cancellationToken);
        return last?.Noted.Choice;
    }
}
