using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Board;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;

namespace ShopFluids.Core.Search;

/// <summary>What is looked for.</summary>
/// <param name="WithPeople">The person who looks may look after people.</param>
/// <param name="MostOfEach">How many of each group are wanted.</param>
public sealed record SearchRequest(string Text, bool WithPeople, int MostOfEach);

/// <summary>
/// Finds sumps, machines, fluids, lots, open work and people by any part of what they are called. Matched here and not by the database: the two
/// engines differ in what they take for the same letter, and a shop's names fit into the memory many times over.
/// </summary>
public sealed class SearchQuery(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    public const int MaximumLength = 100;
    private const int MostLots = 5000;

    /// <param name="wordsOf">Work is found by the words in which it is shown.</param>
    public async Task<SearchResults> RunAsync(SearchRequest request, Func<ShopSetup, Sentences> wordsOf, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(wordsOf);
        var text = request.Text.Length <= MaximumLength ? request.Text : request.Text[..MaximumLength];
        var terms = SearchTerms.Of(text);
        if (terms.IsEmpty)
        {
            return new(text, []);
        }

        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        var say = wordsOf(setup);
        List<(int? Rank, SearchHit Hit)> found =
        [
            .. setup.Sumps.Select(s => OfSump(setup, s, terms)),
            .. setup.Machines.Select(m => (terms.RankTag(m.Tag, m.Name), new SearchHit(SearchGroup.Machines, m.Id, m.Tag, m.Name, TagsWhere(setup, s => s.Machines.Any(x => x.MachineId == m.Id))))),
            .. setup.Fluids.Select(f => (terms.Rank(f.Name), new SearchHit(SearchGroup.Fluids, f.Id, f.Name, "", TagsWhere(setup, s => setup.OpenCharge(s.Id)?.FluidId == f.Id)))),
            .. await LotsAsync(db, setup, say, terms, cancellationToken),
            .. await TasksAsync(db, setup, say, terms, cancellationToken),
            .. request.WithPeople ? await PeopleAsync(db, terms, cancellationToken) : [],
        ];
        return new(text, [.. found.Where(f => f.Rank is not null).GroupBy(f => f.Hit.Group).OrderBy(g => g.Key)
            .Select(g => new SearchHits(g.Key, [.. g.OrderBy(f => f.Rank).Take(request.MostOfEach).Select(f => f.Hit)], g.Count()))]);
    }

    private static (int? Rank, SearchHit Hit) OfSump(ShopSetup setup, Sump sump, SearchTerms terms)
    {
        var machines = setup.MachinesOf(sump);
        var fluid = setup.OpenCharge(sump.Id) is { } charge ? setup.Fluid(charge.FluidId).Name : null;
        string[] parts = [.. machines.Select(m => $"{m.Tag} {m.Name}"), setup.Area(sump.AreaId).Name, .. fluid is null ? [] : new[] { fluid }];
        return (terms.RankTag(sump.Tag, parts), new(SearchGroup.Sumps, sump.Id, sump.Tag, string.Join(", ", parts), [sump.Tag]));
    }

    private static List<string> TagsWhere(ShopSetup setup, Func<Sump, bool> isWanted) => [.. setup.Sumps.Where(isWanted).Select(s => s.Tag)];

    // The newest lots: who looks for one of long ago traces it in the history of its sump.
    private static async Task<List<(int? Rank, SearchHit Hit)>> LotsAsync(ShopFluidsDbContext db, ShopSetup setup, Sentences say, SearchTerms terms, CancellationToken cancellationToken)
    {
        var lots = await db.FluidLots.AsNoTracking()
            .OrderByDescending(l => l.ReceivedOn).ThenBy(l => l.NumberKey)
            .Take(MostLots)
            .Select(l => new { l.Id, l.FluidId, l.Number, l.ExpiresOn, l.RemainingLitres })
            .ToListAsync(cancellationToken);
        var fitting = lots.Select(l => (Lot: l, Fluid: setup.Fluid(l.FluidId).Name)).Select(l => (l.Lot, l.Fluid, Rank: terms.Rank(l.Lot.Number, l.Fluid))).Where(l => l.Rank is not null).ToList();
        var open = setup.Sumps.Select(s => (Sump: s, Charge: setup.OpenCharge(s.Id))).Where(s => s.Charge is not null).ToDictionary(s => s.Charge?.Id ?? Guid.Empty, s => s.Sump.Tag);
        var ids = fitting.Select(l => l.Lot.Id).ToList();
        var held = ids.Count == 0 ? [] : await db.Additions.AsNoTracking()
            .Where(a => a.LotId != null && ids.Contains(a.LotId ?? Guid.Empty) && db.Charges.Any(c => c.Id == a.ChargeId && c.DrainedAtUtc == null))
            .Select(a => new { LotId = a.LotId ?? Guid.Empty, a.ChargeId })
            .Distinct()
            .ToListAsync(cancellationToken);
        var sumpsOf = held.Where(h => open.ContainsKey(h.ChargeId)).ToLookup(h => h.LotId, h => open[h.ChargeId]);
        return fitting.ConvertAll(l => (l.Rank, new SearchHit(
            SearchGroup.Lots,
            l.Lot.Id,
            l.Lot.Number,
            say.Format.Say(Texts.Search_LotDetail, l.Fluid, say.Format.Volume((double)l.Lot.RemainingLitres), say.Format.LongDay(l.Lot.ExpiresOn)),
            [.. sumpsOf[l.Lot.Id].Order(StringComparer.OrdinalIgnoreCase)])));
    }

    private async Task<List<(int? Rank, SearchHit Hit)>> TasksAsync(ShopFluidsDbContext db, ShopSetup setup, Sentences say, SearchTerms terms, CancellationToken cancellationToken)
    {
        var now = clock.UtcNow;
        var tasks = await db.CareTasks.AsNoTracking().Where(t => t.State == TaskState.Open).ToListAsync(cancellationToken);
        return [.. tasks.GroupBy(t => t.SumpId)
            .Where(g => setup.FindSump(g.Key) is not null)
            .SelectMany(g => OpenWorkQuery.Tasks([.. g], new Dictionary<Guid, BoardPerson>(), setup, g.Key, now).Select(t => (Task: t, Tag: setup.FindSump(g.Key)?.Tag ?? "")))
            .OrderBy(t => t.Task.DueAtUtc).ThenBy(t => t.Tag, StringComparer.OrdinalIgnoreCase)
            .Select(t => (Words: say.Task(t.Task.Kind, t.Task.Cause, null), t.Task, t.Tag))
            .Select(t => (terms.Rank(t.Words, [t.Tag, .. SearchTerms.Shortened(t.Tag)]), new SearchHit(
                SearchGroup.Tasks, t.Task.Id, t.Words, say.Format.Say(Texts.Search_TaskDetail, t.Tag, say.Format.Due(t.Task.DueAtUtc, now)), [t.Tag])))];
    }

    private static async Task<List<(int? Rank, SearchHit Hit)>> PeopleAsync(ShopFluidsDbContext db, SearchTerms terms, CancellationToken cancellationToken)
    {
        var people = await db.Users.AsNoTracking().Select(p => new { p.Id, p.DisplayName, p.UserName }).ToListAsync(cancellationToken);
        return [.. people.OrderBy(p => p.DisplayName, StringComparer.OrdinalIgnoreCase)
            .Select(p => (terms.Rank(p.DisplayName, p.UserName ?? ""), new SearchHit(SearchGroup.People, p.Id, p.DisplayName, p.UserName ?? "", [])))];
    }
}
