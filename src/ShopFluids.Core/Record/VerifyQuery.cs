using System.Runtime.CompilerServices;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Photos;
using ShopFluids.Core.Sumps;

namespace ShopFluids.Core.Record;

public enum VerifyProblem
{
    /// <summary>An entry's content does not give its hash.</summary>
    EntryChanged,

    /// <summary>An entry does not follow the one before it: removed, inserted or reordered.</summary>
    ChainBroken,

    /// <summary>The head does not point at the last entry: entries were cut off.</summary>
    HeadMismatch,

    /// <summary>A row differs from what the record says of it.</summary>
    RowChanged,

    /// <summary>A row that the record knows is gone.</summary>
    RowMissing,

    /// <summary>A row that the record does not know.</summary>
    RowUnrecorded,

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
/// Proves the record: every entry gives its hash and follows the one before, every recorded row is as the record last says, every photo has its hash,
/// and every standing equals its rebuild from history.
/// </summary>
public sealed class VerifyQuery(ShopDatabase database, IDatabaseProvider provider)
{
    private readonly record struct Image(long Entry, string Digest);

    public async Task<VerifyReport> RunAsync(CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);

        // One transaction, one moment: what is stored while this runs is left out as a whole.
        await using var moment = await db.Database.BeginTransactionAsync(provider.OneMoment, cancellationToken);
        var findings = new List<VerifyFinding>();
        var (sequence, hash, images) = await CheckChainAsync(db, findings, cancellationToken);
        var rows = await CheckRowsAsync(db, images, findings, cancellationToken);
        await PhotoProof.CheckAsync(db, findings, cancellationToken);
        var standings = await CheckStandingsAsync(db, findings, cancellationToken);
        return new(sequence, rows, standings, hash, findings);
    }

    private static async Task<(long Sequence, string Hash, Dictionary<string, Image> Images)> CheckChainAsync(ShopFluidsDbContext db, List<VerifyFinding> findings, CancellationToken cancellationToken)
    {
        var images = new Dictionary<string, Image>(StringComparer.Ordinal);
        var sequence = 0L;
        string? hash = RecordEntry.FirstPreviousHash;
        await foreach (var entry in RowsOf<RecordEntry>(db, cancellationToken))
        {
            if (entry is null)
            {
                // It can no longer be read, so it stands where the next one would; what follows it cannot be held against its hash.
                sequence++;
                hash = null;
                findings.Add(new(VerifyProblem.EntryChanged, $"RecordEntry {sequence}", sequence));
                continue;
            }

            if (entry.Sequence != sequence + 1 || (hash is not null && entry.PreviousHash != hash))
            {
                findings.Add(new(VerifyProblem.ChainBroken, $"RecordEntry {entry.Sequence}", entry.Sequence));
            }

            // An entry that was changed is still read for its rows as far as it goes: they are compared with what it says now.
            if (!Remember(images, entry) || entry.ComputeHash() != entry.Hash)
            {
                findings.Add(new(VerifyProblem.EntryChanged, $"RecordEntry {entry.Sequence}", entry.Sequence));
            }

            (sequence, hash) = (entry.Sequence, entry.Hash);
        }

        var heads = new List<RecordHead?>();
        await foreach (var row in RowsOf<RecordHead>(db, cancellationToken))
        {
            heads.Add(row);
        }

        if (heads is [{ } head])
        {
            if (head.Sequence != sequence || (hash is not null && head.Hash != hash))
            {
                findings.Add(new(VerifyProblem.HeadMismatch, "RecordHead", head.Sequence));
            }

            return (head.Sequence, head.Hash, images);
        }

        // Deleted or unreadable: the last entry is the end of what there is.
        findings.Add(new(VerifyProblem.HeadMismatch, "RecordHead", sequence));
        return (sequence, hash ?? "", images);
    }

    private static async IAsyncEnumerable<T?> RowsOf<T>(ShopFluidsDbContext db, [EnumeratorCancellation] CancellationToken cancellationToken)
        where T : class
    {
        var type = db.Model.FindEntityType(typeof(T)) ?? throw new InvalidOperationException($"{typeof(T).Name} is not in the model.");
        await foreach (var row in RowSource.Of(db, type).WithCancellation(cancellationToken))
        {
            yield return (T?)row;
        }
    }

    /// <summary>Keeps what an entry says of its rows; false, and nothing kept, where it is not the list of changes that the program writes.</summary>
    private static bool Remember(Dictionary<string, Image> images, RecordEntry entry)
    {
        try
        {
            using var changes = JsonDocument.Parse(entry.Changes);
            var rows = changes.RootElement.EnumerateArray()
                .Select(c => ($"{c.GetProperty("entity").GetString()} {c.GetProperty("key").GetString()}", c.TryGetProperty("after", out var after) ? Digest(after.GetRawText()) : null))
                .ToList();
            foreach (var (row, digest) in rows)
            {
                if (digest is null)
                {
                    images.Remove(row);
                }
                else
                {
                    images[row] = new(entry.Sequence, digest);
                }
            }

            return true;
        }
        catch (Exception unreadable) when (RowSource.IsUnreadable(unreadable) || unreadable is KeyNotFoundException)
        {
            return false;
        }
    }

    private static async Task<int> CheckRowsAsync(ShopFluidsDbContext db, Dictionary<string, Image> images, List<VerifyFinding> findings, CancellationToken cancellationToken)
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
                else if (image.Digest != Digest(RowImage.Of(entry)))
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

    private static string Digest(string image) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(image)));
}
