using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Exchange;
using ShopFluids.Core.Rounds;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Slides;

/// <summary>A slide in a list.</summary>
/// <param name="Value">What was read, in the parameter's canonical unit.</param>
public sealed record ListedSlide(
    Guid Id,
    string SumpTag,
    string Parameter,
    SlideIncubation Incubation,
    DateTime DippedAtUtc,
    DateTime ReadFromUtc,
    DateTime ReadUntilUtc,
    SlideEnd? EndedHow,
    DateTime? EndedAtUtc,
    bool IsReadLate,
    Guid? ReadingId,
    double? Value,
    string? EndReason);

/// <summary>The slides of a sump: those that wait, the earliest first, and those that ended last.</summary>
/// <param name="IncubatorHours">How long one that is started now is kept in an incubator.</param>
public sealed record SlidesPage(SumpPlace Place, DateTime NowUtc, IReadOnlyList<ListedSlide> Open, IReadOnlyList<ListedSlide> Ended, double IncubatorHours, double RoomHours);

public sealed class SlidesQuery(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    private const int EndedShown = 5;

    /// <summary>The page of a sump, or why there is none: not known, retired, empty.</summary>
    public async Task<Result<SlidesPage>> OfSumpAsync(string sumpTag, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        if (SumpWithCharge.Find(setup, sumpTag).IsRefused(out var refusal, out var found))
        {
            return refusal;
        }

        var (sump, charge) = found;

        var now = clock.UtcNow;
        var volume = await db.Standings.AsNoTracking().Where(s => s.SumpId == sump.Id).Select(s => s.VolumeLitres).FirstOrDefaultAsync(cancellationToken);
        var open = await db.Slides.AsNoTracking().Where(s => s.SumpId == sump.Id && s.EndedAtUtc == null).OrderBy(s => s.ReadUntilUtc).ThenBy(s => s.Id).ToListAsync(cancellationToken);
        var ended = await db.Slides.AsNoTracking().Where(s => s.SumpId == sump.Id && s.EndedAtUtc != null).OrderByDescending(s => s.EndedAtUtc).ThenByDescending(s => s.Id).Take(EndedShown).ToListAsync(cancellationToken);
        return new SlidesPage(
            SumpPlace.Of(setup, sump, volume),
            now,
            await ListedAsync(db, setup, open, cancellationToken),
            await ListedAsync(db, setup, ended, cancellationToken),
            (StartSlideHandler.WindowOf(setup, sump, charge, SlideIncubation.Incubator, now).From - now).TotalHours,
            (StartSlideHandler.WindowOf(setup, sump, charge, SlideIncubation.Room, now).From - now).TotalHours);
    }

    /// <summary>Whether a slide of a sump was started before with this id, whatever became of it.</summary>
    public async Task<bool> IsStartedAsync(Guid id, Guid sumpId, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        return await db.Slides.AnyAsync(s => s.Id == id && s.SumpId == sumpId, cancellationToken);
    }

    /// <summary>A page of all, the latest dipped first.</summary>
    public async Task<ListPage<ListedSlide>> RunAsync(bool isOpen, ListPlace? after, int limit, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        var slides = db.Slides.AsNoTracking().Where(s => (s.EndedAtUtc == null) == isOpen);
        if (after is not null)
        {
            slides = slides.Where(s => s.DippedAtUtc < after.AtUtc || (s.DippedAtUtc == after.AtUtc && s.Id.CompareTo(after.Id) < 0));
        }

        var rows = await slides.OrderByDescending(s => s.DippedAtUtc).ThenByDescending(s => s.Id).Take(limit + 1).ToListAsync(cancellationToken);
        return ListPlace.Cut(await ListedAsync(db, await setups.CurrentAsync(db, cancellationToken), rows, cancellationToken), limit, s => new ListPlace(s.DippedAtUtc, s.Id));
    }

    private static async Task<List<ListedSlide>> ListedAsync(ShopFluidsDbContext db, ShopSetup setup, List<Slide> slides, CancellationToken cancellationToken)
    {
        // A corrected reading has the say.
        var sumps = slides.Select(s => s.SumpId).Distinct().ToList();
        var corrected = (await db.Readings.AsNoTracking().Where(r => r.SupersedesId != null && sumps.Contains(r.SumpId)).Select(r => new { r.Id, r.SupersedesId }).ToListAsync(cancellationToken))
            .ToDictionary(r => r.SupersedesId ?? Guid.Empty, r => r.Id);
        var readings = slides.Select(s => LatestOf(s.ReadingId)).OfType<Guid>().ToList();
        var values = readings.Count == 0 ? [] : await db.Measurements.AsNoTracking().Where(m => readings.Contains(m.ReadingId)).Select(m => new { m.ReadingId, m.Parameter, m.Value }).ToListAsync(cancellationToken);
        var tags = setup.Sumps.ToDictionary(s => s.Id, s => s.Tag);
        return slides.ConvertAll(s => new ListedSlide(
            s.Id,
            tags[s.SumpId],
            s.Parameter,
            s.Incubation,
            s.DippedAtUtc,
            s.ReadFromUtc,
            s.ReadUntilUtc,
            s.EndedHow,
            s.EndedAtUtc,
            s.IsReadLate,
            s.ReadingId,
            values.Find(v => v.ReadingId == LatestOf(s.ReadingId) && v.Parameter == s.Parameter)?.Value,
            s.EndReason));

        Guid? LatestOf(Guid? readingId)
        {
            while (readingId is { } id && corrected.TryGetValue(id, out var next))
            {
                readingId = next;
            }

            return readingId;
        }
    }
}
