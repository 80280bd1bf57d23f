using System.Buffers;
using System.Security.Cryptography;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Core.Database;
using ShopFluids.Core.Record.Sealing;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Record;

/// <summary>One act in the audit trail: who, when, what, before and after. Chained to the entry before it by SHA-256, and sealed with the shop's key.</summary>
public sealed class RecordEntry
{
    // Named, because without a name the writer escapes the same characters byte by byte, which takes longer than to hash them.
    internal static readonly JsonWriterOptions HashedWriting = new() { Encoder = JavaScriptEncoder.Default };

    private RecordEntry()
    {
    }

    /// <summary>Characters of what an act is about.</summary>
    public const int MaximumSubjectLength = 120;

    public RecordEntry(long sequence, Act act, string changes, string previousHash)
    {
        Sequence = sequence;
        AtUtc = ShopClock.ToMillisecond(act.AtUtc);
        ActorId = act.Actor.PersonId;
        ActorName = ActorId is null ? StoredForm.Clean(act.Actor.Name) : "";
        StationId = act.Actor.Station?.Id;
        StationName = act.Actor.Station is { } station ? StoredForm.Clean(station.Name) : null;
        Code = act.Code;
        Subject = StoredForm.Clean(act.Subject);
        Changes = changes;
        PreviousHash = previousHash;
        Hash = ComputeHash();
    }

    /// <summary>1, 2, 3 ... without gaps.</summary>
    public long Sequence { get; private set; }

    public DateTime AtUtc { get; private set; }

    public Guid? ActorId { get; private set; }

    /// <summary>
    /// Of the program. A person's name is looked up by the id (<see cref="People.Numbers.PersonNumber"/>); only entries from before people had
    /// numbers hold it.
    /// </summary>
    public string ActorName { get; private set; } = "";

    /// <summary>The shared tablet at which it was done; null elsewhere.</summary>
    public Guid? StationId { get; private set; }

    public string? StationName { get; private set; }

    /// <summary>What was done, such as reading.stored.</summary>
    public string Code { get; private set; } = "";

    /// <summary>The tag or name of what it was done to.</summary>
    public string Subject { get; private set; } = "";

    /// <summary>The changed rows: JSON array of entity, key, before (changed values) and after (whole row).</summary>
    public string Changes { get; private set; } = "[]";

    public string PreviousHash { get; private set; } = "";

    /// <summary>SHA-256 in lower-case hex over all of the above.</summary>
    public string Hash { get; private set; } = "";

    /// <summary>The hash under the shop's key (<see cref="RecordKey"/>). Null in entries from before there was one.</summary>
    public string? Seal { get; private set; }

    public const string FirstPreviousHash = "0000000000000000000000000000000000000000000000000000000000000000";

    /// <summary>The hash that this entry must carry.</summary>
    public string ComputeHash()
    {
        var bytes = new ArrayBufferWriter<byte>();
        WriteHashed(bytes);
        return Convert.ToHexStringLower(SHA256.HashData(bytes.WrittenSpan));
    }

    /// <summary>Writes what the hash is taken of.</summary>
    public void WriteHashed(IBufferWriter<byte> bytes)
    {
        using var json = new Utf8JsonWriter(bytes, HashedWriting);
        new StoredEntry(Sequence, AtUtc, ActorId, ActorName, StationId, StationName, Code, Subject, Encoding.UTF8.GetBytes(Changes), PreviousHash, Hash, Seal).WriteHashed(json);
    }

    internal void SealWith(RecordKey key) => Seal = key.Seal(Hash);
}

/// <summary>The end of the chain and the version of the set-up: the one row that every write locks first.</summary>
public sealed class RecordHead
{
    public const int TheOnlyId = 1;

    public int Id { get; private set; } = TheOnlyId;

    public long Sequence { get; private set; }

    public string Hash { get; private set; } = RecordEntry.FirstPreviousHash;

    /// <summary>Raised with every change of set-up, so that every instance knows when its snapshot is old.</summary>
    public long SetupVersion { get; private set; }

    /// <param name="key">Null in a program that seals nothing.</param>
    public RecordEntry Append(Act act, string changes, bool changesSetup, RecordKey? key)
    {
        var entry = new RecordEntry(Sequence + 1, act, changes, Hash);
        if (key is not null)
        {
            entry.SealWith(key);
        }

        Sequence = entry.Sequence;
        Hash = entry.Hash;
        SetupVersion += changesSetup ? 1 : 0;
        return entry;
    }
}

internal sealed class RecordConfiguration : IEntityTypeConfiguration<RecordEntry>, IEntityTypeConfiguration<RecordHead>
{
    public void Configure(EntityTypeBuilder<RecordEntry> builder)
    {
        builder.ToTable("RecordEntries");
        builder.HasKey(e => e.Sequence);
        builder.Property(e => e.Sequence).ValueGeneratedNever();
        builder.Property(e => e.ActorName).HasMaxLength(120);
        builder.Property(e => e.StationName).HasMaxLength(60);
        builder.Property(e => e.Code).HasMaxLength(60);
        builder.Property(e => e.Subject).HasMaxLength(RecordEntry.MaximumSubjectLength);
        builder.Property(e => e.PreviousHash).HasMaxLength(64);
        builder.Property(e => e.Hash).HasMaxLength(64);
        builder.Property(e => e.Seal).HasMaxLength(64);
    }

    public void Configure(EntityTypeBuilder<RecordHead> builder)
    {
        builder.ToTable("RecordHead");
        builder.Property(h => h.Id).ValueGeneratedNever();
        builder.Property(h => h.Hash).HasMaxLength(64);
        builder.HasData(new RecordHead());
    }
}
