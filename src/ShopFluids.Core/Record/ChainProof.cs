using System.Runtime.CompilerServices;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using ShopFluids.Core.Database;
using ShopFluids.Core.Record.Sealing;

namespace ShopFluids.Core.Record;

/// <summary>What the record last says of a row.</summary>
/// <param name="Entry">The number of the entry that says it.</param>
internal readonly record struct RecordedImage(long Entry, string Digest)
{
    public static string DigestOf(string image) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(image)));
}

/// <summary>Reads the entries of the record from the first to the last and holds each against its hash, its seal, the one before it and the fingerprints.</summary>
/// <param name="key">Null where there is none: then the seals are only held against each other.</param>
internal sealed class ChainProof(RecordKey? key, IReadOnlyList<RecordFingerprint> fingerprints, List<VerifyFinding> findings)
{
    private readonly Dictionary<string, RecordedImage> _images = new(StringComparer.Ordinal);

    // The key remembers where the record stood when it came: that is one fingerprint more.
    private readonly ILookup<long, RecordFingerprint> _fingerprints = (key is null ? fingerprints : fingerprints.Append(key.Since)).ToLookup(f => f.Count);

    private long _sequence;
    private string? _hash = RecordEntry.FirstPreviousHash;
    private bool _isSealedBefore;
    private bool _isSealMissing;

    public async Task<(RecordFingerprint End, Dictionary<string, RecordedImage> Images)> CheckAsync(ShopFluidsDbContext db, CancellationToken cancellationToken)
    {
        Compare(_sequence, RecordEntry.FirstPreviousHash);
        await foreach (var entry in RowsOf<RecordEntry>(db, cancellationToken))
        {
            if (entry is null)
            {
                // It can no longer be read, so it stands where the next one would; what follows it cannot be held against its hash.
                _sequence++;
                _hash = null;
                Found(VerifyProblem.EntryChanged, _sequence);
            }
            else
            {
                Check(entry);
                (_sequence, _hash) = (entry.Sequence, entry.Hash);
            }
        }

        var kept = _fingerprints.Max(f => (long?)f.Key) ?? 0;
        if (kept > _sequence)
        {
            findings.Add(new(VerifyProblem.CutOff, Where(_sequence + 1), kept));
        }

        return (await CheckHeadAsync(db, cancellationToken), _images);
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

    private static string Where(long sequence) => $"RecordEntry {sequence}";

    private void Found(VerifyProblem problem, long sequence) => findings.Add(new(problem, Where(sequence), sequence));

    private void Check(RecordEntry entry)
    {
        if (entry.Sequence != _sequence + 1 || (_hash is not null && entry.PreviousHash != _hash))
        {
            Found(VerifyProblem.ChainBroken, entry.Sequence);
        }

        // An entry that was changed is still read for its rows as far as it goes: they are compared with what it says now.
        if (!Remember(entry) || entry.ComputeHash() != entry.Hash)
        {
            Found(VerifyProblem.EntryChanged, entry.Sequence);
        }

        CheckSeal(entry);
        Compare(entry.Sequence, entry.Hash);
    }

    // Whoever forges one entry must forge all that follow: the first of them says it all.
    private void CheckSeal(RecordEntry entry)
    {
        var isMissing = key is null ? _isSealedBefore && entry.Seal is null : entry.Sequence > key.Since.Count && !key.HasSealed(entry.Hash, entry.Seal);
        if (isMissing && !_isSealMissing)
        {
            Found(VerifyProblem.NotSealed, entry.Sequence);
        }

        _isSealMissing = isMissing;
        _isSealedBefore |= entry.Seal is not null;
    }

    private void Compare(long sequence, string hash)
    {
        if (_fingerprints[sequence].Any(f => !f.Fits(hash)))
        {
            Found(VerifyProblem.FingerprintDiffers, sequence);
        }
    }

    private async Task<RecordFingerprint> CheckHeadAsync(ShopFluidsDbContext db, CancellationToken cancellationToken)
    {
        var heads = new List<RecordHead?>();
        await foreach (var row in RowsOf<RecordHead>(db, cancellationToken))
        {
            heads.Add(row);
        }

        if (heads is not [{ } head])
        {
            // Deleted or unreadable: the last entry is the end of what there is.
            findings.Add(new(VerifyProblem.HeadMismatch, "RecordHead", _sequence));
            return new(_sequence, _hash ?? "");
        }

        if (head.Sequence != _sequence || (_hash is not null && head.Hash != _hash))
        {
            findings.Add(new(VerifyProblem.HeadMismatch, "RecordHead", head.Sequence));
        }

        return new(head.Sequence, head.Hash);
    }

    /// <summary>Keeps what an entry says of its rows; false, and nothing kept, where it is not the list of changes that the program writes.</summary>
    private bool Remember(RecordEntry entry)
    {
        try
        {
            using var changes = JsonDocument.Parse(entry.Changes);
            var rows = changes.RootElement.EnumerateArray()
                .Select(c => ($"{c.GetProperty("entity").GetString()} {c.GetProperty("key").GetString()}", c.TryGetProperty("after", out var after) ? RecordedImage.DigestOf(after.GetRawText()) : null))
                .ToList();
            foreach (var (row, digest) in rows)
            {
                if (digest is null)
                {
                    _images.Remove(row);
                }
                else
                {
                    _images[row] = new(entry.Sequence, digest);
                }
            }

            return true;
        }
        catch (Exception unreadable) when (RowSource.IsUnreadable(unreadable) || unreadable is KeyNotFoundException)
        {
            return false;
        }
    }
}
