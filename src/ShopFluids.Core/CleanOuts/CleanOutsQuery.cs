using Microsoft.EntityFrameworkCore;
using ShopFluids.Calculations.Upkeep;
using ShopFluids.Core.Database;
using ShopFluids.Core.Exchange;
using ShopFluids.Core.Setup;

namespace ShopFluids.Core.CleanOuts;

/// <summary>A clean-out in a list.</summary>
/// <param name="EndedBy">Empty while it is open, and where the program ended it.</param>
/// <param name="ReadingId">The first reading of the new charge; null while it is open and when it was broken off.</param>
/// <param name="BrokenOffReason">Empty where the charge was drained in another way; null when it was not broken off.</param>
/// <param name="Numbers">What the plan comes to; null once it has ended: the set-up may be another since.</param>
/// <param name="Steps">In their order; of an open one those to come too.</param>
/// <param name="LotNumbers">Of the lots that the refill names.</param>
public sealed record ListedCleanOut(
    Guid Id,
    string SumpTag,
    int ChargeNumber,
    DateTime BegunAtUtc,
    DateTime? EndedAtUtc,
    string EndedBy,
    Guid? ReadingId,
    string? BrokenOffReason,
    CleanOutPlan? Numbers,
    IReadOnlyList<CleanOutPageStep> Steps,
    IReadOnlyDictionary<Guid, string> LotNumbers)
{
    /// <summary>The step whose turn it is; null when only the first reading is missing, and once it has ended.</summary>
    public CleanOutPageStep? Current => Steps.FirstOrDefault(s => s.Noted is null);
}

/// <summary>Clean-outs of all sumps.</summary>
public sealed class CleanOutsQuery(ShopDatabase database, SetupCache setups)
{
    /// <summary>Null when there is none of this id.</summary>
    public async Task<ListedCleanOut?> OneAsync(Guid id, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        var found = await db.CleanOuts.AsNoTracking().Where(c => c.Id == id).ToListAsync(cancellationToken);
        return (await ListedAsync(db, setup, found, cancellationToken)).FirstOrDefault();
    }

    /// <summary>A page of them, the latest begun first.</summary>
    public async Task<ListPage<ListedCleanOut>> RunAsync(bool isOpen, ListPlace? after, int limit, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        var cleanOuts = db.CleanOuts.AsNoTracking().Where(c => (c.EndedAtUtc == null) == isOpen);
        if (after is not null)
        {
            cleanOuts = cleanOuts.Where(c => c.BegunAtUtc < after.AtUtc || (c.BegunAtUtc == after.AtUtc && c.Id.CompareTo(after.Id) < 0));
        }

        var rows = await cleanOuts.OrderByDescending(c => c.BegunAtUtc).ThenByDescending(c => c.Id).Take(limit + 1).ToListAsync(cancellationToken);
        return ListPlace.Cut(await ListedAsync(db, await setups.CurrentAsync(db, cancellationToken), rows, cancellationToken), limit, c => new ListPlace(c.BegunAtUtc, c.Id));
    }

    private static async Task<List<ListedCleanOut>> ListedAsync(ShopFluidsDbContext db, ShopSetup setup, List<CleanOut> cleanOuts, CancellationToken cancellationToken)
    {
        var ids = cleanOuts.ConvertAll(c => c.Id);
        var steps = ids.Count == 0 ? [] : await db.CleanOutSteps.AsNoTracking().Where(s => ids.Contains(s.CleanOutId)).ToListAsync(cancellationToken);
        var chargeIds = cleanOuts.Select(c => c.ChargeId).Distinct().ToList();
        var charges = chargeIds.Count == 0 ? [] : await db.Charges.AsNoTracking().Where(c => chargeIds.Contains(c.Id)).ToDictionaryAsync(c => c.Id, cancellationToken);
        var people = steps.Select(s => s.PersonId).Concat(cleanOuts.Select(c => c.EndedByPersonId).OfType<Guid>()).Distinct().ToList();
        var names = people.Count == 0 ? [] : await db.Users.AsNoTracking().Where(p => people.Contains(p.Id)).ToDictionaryAsync(p => p.Id, p => p.DisplayName, cancellationToken);
        var lotIds = steps.SelectMany(s => s.Noted.Draws ?? []).Select(d => d.LotId).OfType<Guid>().Distinct().ToList();
        var lots = lotIds.Count == 0 ? [] : await db.FluidLots.AsNoTracking().Where(l => lotIds.Contains(l.Id)).ToDictionaryAsync(l => l.Id, l => l.Number, cancellationToken);
        return cleanOuts.ConvertAll(c =>
        {
            var sump = setup.Sumps.First(s => s.Id == c.SumpId);
            var done = steps.FindAll(s => s.CleanOutId == c.Id);
            var choice = done.Find(s => s.Kind == CleanOutStepKind.Plan)?.Noted.Choice;
            var kinds = done.Select(s => s.Kind);
            return new ListedCleanOut(
                c.Id,
                sump.Tag,
                charges[c.ChargeId].Number,
                c.BegunAtUtc,
                c.EndedAtUtc,
                c.EndedByPersonId is { } person ? names.GetValueOrDefault(person, "") : "",
                c.ReadingId,
                c.BrokenOffReason,
                c.IsOpen && choice is not null ? CleanOutNumbers.Of(choice, sump, setup.Fluid(charges[c.ChargeId].FluidId), setup.Site?.MeasurableLitres ?? 0.1m) : null,
                [
                    .. (c.IsOpen ? CleanOutSteps.Of(choice, kinds) : [.. kinds.Order()]).Select(k => done.Find(s => s.Kind == k) is { } step
                        ? new CleanOutPageStep(k, step.Noted, step.DoneAtUtc, step.PersonId, names.GetValueOrDefault(step.PersonId, ""), step.Round)
                        : new CleanOutPageStep(k, null, null, null, "", 0)),
                ],
                lots);
        });
    }
}
