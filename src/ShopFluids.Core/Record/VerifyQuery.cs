using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using ShopFluids.Core.Database;
using ShopFluids.Core.People.Numbers;
using ShopFluids.Core.Photos;
using ShopFluids.Core.Record.Sealing;
using ShopFluids.Core.Sumps;

namespace ShopFluids.Core.Record;

public enum VerifyProblem
{
    /// <summary>An entry's content does not give its hash.</summary>
    EntryChanged,

    /// <summary>An entry does not follow the one before it: removed, inserted or reordered.</summary>
    ChainBroken,

    /// <summary>An entry does not carry the seal of the shop's key: it was written past the program. Said of the first of several in a row.</summary>
    NotSealed,

    /// <summary>The head does not point at the last entry: entries were cut off.</summary>
    HeadMismatch,

    /// <summary>An entry is not the one of which a fingerprint was kept: it or one before it was changed.</summary>
    FingerprintDiffers,

    /// <summary>The record ends before an entry of which a fingerprint was kept.</summary>
    CutOff,

    /// <summary>A row differs from what the record says of it.</summary>
    RowChanged,

    /// <summary>A row that the record knows is gone.</summary>
    RowMissing,

    /// <summary>A row that the record does not know.</summary>
    RowUnrecorded,

    /// <summary>A person's name is not the one that the record vouches for.</summary>
    NameDiffers,

    /// <summary>A standing differs from its rebuild.</summary>
    StandingDiffers,
}

/// <summary>One thing that is not as it should be.</summary>
/// <param name="Where">Entity and key of the row, or the entry's number.</param>
/// <param name="Entry">The record entry that says otherwise, where there is one.</param>
public sealed record VerifyFinding(VerifyProblem Problem, string Where, long? Entry = null);

/// <param name="HeadHash">The hash of the last entry: the fingerprint of the whole record.</param>
public sealed record VerifyReport(long Entries, int Rows, int Standings, string HeadHash, IReadOnlyList<VerifyFinding> Findings);

/// <summary>
/// Proves the record: every entry gives its hash, follows the one before and is sealed with the shop's key, every recorded row is as the record
/// last says, every person has the name that it vouches for, every photo has its hash, and every standing equals its rebuild from history.
/// </summary>
public sealed class VerifyQuery(ShopDatabase database, IDatabaseProvider provider, RecordSealer sealer)
{
    /// <param name="fingerprints">What was kept of the record elsewhere; without one, nobody sees that the newest entries were cut off together with their rows.</param>
    public async Task<VerifyReport> RunAsync(IReadOnlyList<RecordFingerprint> fingerprints, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);

        // One transaction, one moment: what is stored while this runs is left out as a whole.
        await using var moment = await db.Database.BeginTransactionAsync(provider.OneMoment, cancellationToken);
        return await RunAsync(db, fingerprints, cancellationToken);
    }

    /// <summary>The same within a transaction of the caller, and of what that one sees.</summary>
    public async Task<VerifyReport> RunAsync(ShopFluidsDbContext db, IReadOnlyList<RecordFingerprint> fingerprints, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(db);
        ArgumentNullException.ThrowIfNull(fingerprints);
        var findings = new List<VerifyFinding>();
        using var chain = new ChainProof(sealer.Key, fingerprints, findings);
        var (end, images) = await chain.CheckAsync(db, cancellationToken);
        var rows = await CheckRowsAsync(db, images, findings, cancellationToken);
        await NameProof.CheckAsync(db, findings, cancellationToken);
        await PhotoProof.CheckAsync(db, findings, cancellationToken);
        var standings = await CheckStandingsAsync(db, findings, cancellationToken);
        return new(end.Count, rows, standings, end.Hash, findings);
    }

    private static async Task<int> CheckRowsAsync(ShopFluidsDbContext db, Dictionary<string, RecordedImage> images, List<VerifyFinding> findings, CancellationToken cancellationToken)
    {
        var rows = 0;
        var unreadable = new HashSet<string>(StringComparer.Ordinal);
        foreach (var type in db.Model.GetEntityTypes().Where(t => typeof(IRecorded).IsAssignableFrom(t.ClrType)).OrderBy(t => t.ShortName(), StringComparer.Ordinal))
        {
            await foreach (var entity in RowSource.Of(db, type).WithCancellation(cancellationToken))
            {
                rows++;
                if (entity is null)
                {
                    unreadable.Add(type.ShortName());
                    continue;
                }

                var entry = db.Entry(entity);
                var row = $"{type.ShortName()} {RowImage.KeyOf(entry)}";
                if (!images.Remove(row, out var image))
                {
                    findings.Add(new(VerifyProblem.RowUnrecorded, row));
                }
                else if (image.Digest != DigestOf(entry))
                {
                    findings.Add(new(VerifyProblem.RowChanged, row, image.Entry));
                }
            }
        }

        // A row that can no longer be read matches no image; what is left over of its kind names it.
        findings.AddRange(images.OrderBy(i => i.Key, StringComparer.Ordinal).Select(i => new VerifyFinding(
            unreadable.Contains(i.Key.Split(' ')[0]) ? VerifyProblem.RowChanged : VerifyProblem.RowMissing,
            i.Key,
            i.Value.Entry)));
        return rows;
    }

    /// <returns>Null for a row that was changed so that it has no image.</returns>
    private static string? DigestOf(EntityEntry entry)
    {
        try
        {
            return EntryExaminer.DigestOf(RowImage.Of(entry));
        }
        catch (Exception unreadable) when (RowSource.IsUnreadable(unreadable))
        {
            return null;
        }
    }

    private static async Task<int> CheckStandingsAsync(ShopFluidsDbContext db, List<VerifyFinding> findings, CancellationToken cancellationToken)
    {
        var sumps = await db.Sumps.AsNoTracking().OrderBy(s => s.TagKey).Select(s => new { s.Id, s.Tag }).ToListAsync(cancellationToken);
        foreach (var sump in sumps)
        {
            if (!await IsAsRebuiltAsync(db, sump.Id, cancellationToken))
            {
                findings.Add(new(VerifyProblem.StandingDiffers, $"Standing {sump.Tag}"));
            }
        }

        return sumps.Count;
    }

    private static async Task<bool> IsAsRebuiltAsync(ShopFluidsDbContext db, Guid sumpId, CancellationToken cancellationToken)
    {
        try
        {
            var sump = await db.Sumps.AsNoTracking().SingleAsync(s => s.Id == sumpId, cancellationToken);
            var stored = await db.Standings.AsNoTracking().FirstOrDefaultAsync(s => s.SumpId == sumpId, cancellationToken);
            var rebuilt = new Standing(sumpId);
            (await StandingRebuild.FromHistoryAsync(db, sump, cancellationToken)).ApplyTo(rebuilt);
            return stored is not null && Text(stored) == Text(rebuilt);
        }
        catch (Exception unreadable) when (RowSource.IsUnreadable(unreadable))
        {
            // Rows that were changed by hand may say what no shop could: no rebuild, hence no proof.
            return false;
        }
    }

    private static string Text(Standing standing) => JsonColumn.Write(new
    {
        standing.ChargeId,
        standing.Verdict,
        standing.Direction,
        standing.LastReadAtUtc,
        standing.VolumeLitres,
        standing.OpenFlagCount,
        standing.NextTestDueAtUtc,
        standing.NextDueAtUtc,
        standing.Facts,
    });
}
