using System.Collections.Concurrent;
using System.Runtime.CompilerServices;
using ShopFluids.Core.Database;
using ShopFluids.Core.Record.Sealing;

namespace ShopFluids.Core.Record;

/// <summary>What the record last says of a row.</summary>
/// <param name="Entry">The number of the entry that says it.</param>
internal readonly record struct RecordedImage(long Entry, string Digest);

/// <summary>Reads the entries of the record from the first to the last and holds each against its hash, its seal, the one before it and the fingerprints.</summary>
/// <param name="key">Null where there is none: then the seals are only held against each other.</param>
internal sealed class ChainProof(RecordKey? key, IReadOnlyList<RecordFingerprint> fingerprints, List<VerifyFinding> findings) : IDisposable
{
    // While entries are examined on other cores the next are read; few at a time, so that they are still in the processor's cache when they are hashed.
    private const int ReadTogether = 32;

    // One for each that works at the same time: they keep their buffers and have taken up the key.
    private readonly ConcurrentBag<EntryExaminer> _examiners = [];

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
        await foreach (var examined in ExaminedAsync(db, cancellationToken))
        {
            if (examined.Entry is not { } entry)
            {
                // It can no longer be read, so it stands where the next one would; what follows it cannot be held against its hash.
                _sequence++;
                _hash = null;
                Found(VerifyProblem.EntryChanged, _sequence);
            }
            else
            {
                Check(entry, examined);
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

    public void Dispose()
    {
        while (_examiners.TryTake(out var examiner))
        {
            examiner.Dispose();
        }
    }

    private async IAsyncEnumerable<ExaminedEntry> ExaminedAsync(ShopFluidsDbContext db, [EnumeratorCancellation] CancellationToken cancellationToken)
    {
        var ahead = new Queue<Task<ExaminedEntry[]>>();
        await foreach (var entries in EntrySource.Of(db, cancellationToken).Chunk(ReadTogether))
        {
            ahead.Enqueue(Task.Run(() => Examine(entries), cancellationToken));
            foreach (var examined in ahead.Count < Environment.ProcessorCount ? [] : await ahead.Dequeue())
            {
                yield return examined;
            }
        }

        foreach (var left in ahead)
        {
            foreach (var examined in await left)
            {
                yield return examined;
            }
        }
    }

    private ExaminedEntry[] Examine(StoredEntry?[] entries)
    {
        var examiner = _examiners.TryTake(out var free) ? free : new EntryExaminer(key);
        try
        {
            return Array.ConvertAll(entries, examiner.Examine);
        }
        finally
        {
            _examiners.Add(examiner);
        }
    }

    private static string Where(long sequence) => $"RecordEntry {sequence}";

    private void Found(VerifyProblem problem, long sequence) => findings.Add(new(problem, Where(sequence), sequence));

    private void Check(StoredEntry entry, ExaminedEntry examined)
    {
        if (entry.Sequence != _sequence + 1 || (_hash is not null && entry.PreviousHash != _hash))
        {
            Found(VerifyProblem.ChainBroken, entry.Sequence);
        }

        foreach (var (row, digest) in examined.Rows)
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

        if (!examined.IsIntact)
        {
            Found(VerifyProblem.EntryChanged, entry.Sequence);
        }

        CheckSeal(entry, examined.IsSealed);
        Compare(entry.Sequence, entry.Hash);
    }

    // Whoever forges one entry must forge all that follow: the first of them says it all.
    private void CheckSeal(StoredEntry entry, bool isSealed)
    {
        var isMissing = key is null ? _isSealedBefore && entry.Seal is null : entry.Sequence > key.Since.Count && !isSealed;
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
        var type = db.Model.FindEntityType(typeof(RecordHead)) ?? throw new InvalidOperationException($"{nameof(RecordHead)} is not in the model.");
        await foreach (var row in RowSource.Of(db, type).WithCancellation(cancellationToken))
        {
            heads.Add((RecordHead?)row);
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
}
