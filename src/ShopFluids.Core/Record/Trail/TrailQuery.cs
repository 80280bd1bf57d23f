using System.Runtime.CompilerServices;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Setup;

namespace ShopFluids.Core.Record.Trail;

/// <summary>Reads the record for people: page by page, or as a whole for a file.</summary>
public sealed class TrailQuery(ShopDatabase database, SetupCache setups)
{
    public const int PageSize = 50;

    // The model is one for the life of the program.
    private TrailColumns? _columns;

    public async Task<TrailPage> RunAsync(TrailFilter filter, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(filter);
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        var matching = await MatchingAsync(db, setup, filter, cancellationToken);
        var found = await matching.CountAsync(cancellationToken);
        var page = await matching.Where(e => filter.Before == null || e.Sequence < filter.Before).OrderByDescending(e => e.Sequence).Take(PageSize + 1).ToListAsync(cancellationToken);
        var head = await db.RecordHead.AsNoTracking().SingleAsync(cancellationToken);
        var people = await TrailPeople.OfAsync(db, cancellationToken);
        var shown = page.Take(PageSize).Select(e => Entry(e, people)).ToList();
        var (tasks, flags) = (IdsOf(shown, nameof(CareTask)), IdsOf(shown, nameof(Flag)));
        return new(
            setup,
            shown,
            found,
            head.Sequence,
            head.Hash,
            page.Count > PageSize ? shown[^1].Sequence : null,
            await people.ActorsAsync(db, cancellationToken),
            await TrailNames.OfAsync(db, setup, shown, cancellationToken),
            _columns ??= new(db.Model))
        {
            Tasks = await db.CareTasks.AsNoTracking().Where(t => tasks.Contains(t.Id)).ToDictionaryAsync(t => t.Id, t => (t.Kind, t.Cause), cancellationToken),
            Flags = await db.Flags.AsNoTracking().Where(f => flags.Contains(f.Id)).ToDictionaryAsync(f => f.Id, f => (f.Rule, f.Parameter), cancellationToken),
            FirstAtUtc = await db.RecordEntries.MinAsync(e => (DateTime?)e.AtUtc, cancellationToken),
            FirstExposureUtc = await StandingDoses.Of(db).Where(d => d.Kind == DoseKind.Biocide || d.Kind == DoseKind.Fungicide).MinAsync(d => (DateTime?)d.GivenAtUtc, cancellationToken),
        };
    }

    /// <summary>Every entry that the filter finds, the first one first, one at a time: a record of years does not fit into memory.</summary>
    public async IAsyncEnumerable<NamedEntry> AllAsync(TrailFilter filter, [EnumeratorCancellation] CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(filter);
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        var matching = await MatchingAsync(db, setup, filter, cancellationToken);
        var people = await TrailPeople.OfAsync(db, cancellationToken);
        await foreach (var entry in matching.OrderBy(e => e.Sequence).AsAsyncEnumerable().WithCancellation(cancellationToken))
        {
            yield return new(entry, people.NameOf(entry), people.SubjectOf(entry));
        }
    }

    private static async Task<IQueryable<RecordEntry>> MatchingAsync(ShopFluidsDbContext db, ShopSetup setup, TrailFilter filter, CancellationToken cancellationToken)
    {
        var entries = db.RecordEntries.AsNoTracking();
        if (filter.From is { } first)
        {
            var from = setup.Calendar.StartOf(first);
            entries = entries.Where(e => e.AtUtc >= from);
        }

        if (filter.To is { } last)
        {
            var until = setup.Calendar.StartOf(last.AddDays(1));
            entries = entries.Where(e => e.AtUtc < until);
        }

        if (!string.IsNullOrEmpty(filter.Who))
        {
            entries = Guid.TryParse(filter.Who, out var person) ? entries.Where(e => e.ActorId == person) : entries.Where(e => e.ActorId == null && e.ActorName == filter.Who);
        }

        if (!string.IsNullOrEmpty(filter.What))
        {
            entries = entries.Where(e => e.Code == filter.What);
        }

        if (!string.IsNullOrWhiteSpace(filter.About))
        {
            // Compared here: the engines disagree on capitals beyond the letters of English.
            var about = filter.About.Trim();
            var subjects = (await db.RecordEntries.Select(e => e.Subject).Distinct().ToListAsync(cancellationToken)).FindAll(s => s.Contains(about, StringComparison.OrdinalIgnoreCase));
            entries = (await TrailPeople.WithoutSignInNamesAsync(db, entries, cancellationToken)).Where(e => subjects.Contains(e.Subject));
        }

        return entries;
    }

    private static HashSet<Guid> IdsOf(List<TrailEntry> entries, string entity) =>
        [.. entries.SelectMany(e => e.Rows ?? []).Where(r => r.Entity == entity).Select(r => Guid.TryParseExact(r.Key, "D", out var id) ? id : Guid.Empty)];

    private static TrailEntry Entry(RecordEntry entry, TrailPeople people) =>
        new(entry.Sequence, entry.AtUtc, people.NameOf(entry), entry.StationName, entry.Code, people.SubjectOf(entry), entry.Hash, RowChange.Read(entry.Changes));
}
