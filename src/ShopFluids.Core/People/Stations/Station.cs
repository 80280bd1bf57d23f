using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.People.Stations;

/// <summary>A shop-floor tablet that people share.</summary>
public sealed class Station : Entity
{
    private Station()
    {
    }

    public Station(Guid id, string name, string place, string theme, DateTime madeAtUtc)
    {
        Id = id;
        Name = name;
        Place = place;
        Theme = theme;
        MadeAtUtc = madeAtUtc;
    }

    public string Name { get; private set; } = "";

    /// <summary>Where in the shop it hangs or lies; may be empty.</summary>
    public string Place { get; private set; } = "";

    /// <summary>light, dark or shop: glare belongs to a place, not to a person.</summary>
    public string Theme { get; private set; } = "shop";

    public DateTime MadeAtUtc { get; private set; }

    /// <summary>When a tablet last took the station's code; null until one did.</summary>
    public DateTime? EnrolledAtUtc { get; private set; }

    public DateTime? RevokedAtUtc { get; private set; }

    internal void Change(string name, string place, string theme) => (Name, Place, Theme) = (name, place, theme);

    internal void Enrol(DateTime atUtc) => EnrolledAtUtc = atUtc;

    internal void Revoke(DateTime atUtc) => RevokedAtUtc = atUtc;
}

/// <summary>What lets a tablet be a station. Apart from the station itself: secrets and sessions have no place in the record.</summary>
public sealed class StationKey
{
    private StationKey()
    {
    }

    public StationKey(Guid stationId) => StationId = stationId;

    public Guid StationId { get; private set; }

    /// <summary>SHA-256 of the enrolment code that waits to be used, in lower-case hex.</summary>
    public string? CodeHash { get; private set; }

    public DateTime? CodeUntilUtc { get; private set; }

    /// <summary>Who made the code: the enrolment is theirs, although the tablet that uses the code is nobody.</summary>
    public Guid? CodeById { get; private set; }

    /// <summary>SHA-256 of the tablet's own secret, in lower-case hex. The secret has 256 bits of chance, so a slow hash adds nothing.</summary>
    public string? Hash { get; private set; }

    /// <summary>The one PIN session that counts; locking the tablet takes it away here, so that no late answer brings it back.</summary>
    public string? SessionId { get; private set; }

    internal void Offer(string codeHash, DateTime untilUtc, Record.Actor by) =>
        (CodeHash, CodeUntilUtc, CodeById) = (codeHash, untilUtc, by.PersonId);

    internal void Take(string hash) =>
        (Hash, SessionId, CodeHash, CodeUntilUtc, CodeById) = (hash, null, null, null, null);

    internal void Begin(string sessionId) => SessionId = sessionId;

    internal void Lock() => SessionId = null;
}

/// <summary>What a tablet last told of itself.</summary>
public sealed class StationContact
{
    private StationContact()
    {
    }

    public StationContact(Guid stationId) => StationId = stationId;

    public Guid StationId { get; private set; }

    public DateTime SeenAtUtc { get; private set; }

    /// <summary>Readings that were saved on the tablet and not sent yet.</summary>
    public int Unsent { get; private set; }

    /// <summary>When the oldest of them was saved, by the server's clock.</summary>
    public DateTime? OldestUnsentAtUtc { get; private set; }

    /// <summary>How far the tablet's clock is ahead of the server's, ms; negative where it is behind.</summary>
    public long ClockAheadMs { get; private set; }

    internal void Note(DateTime atUtc, int unsent, DateTime? oldestUnsentAtUtc, long clockAheadMs) =>
        (SeenAtUtc, Unsent, OldestUnsentAtUtc, ClockAheadMs) = (atUtc, unsent, oldestUnsentAtUtc, clockAheadMs);
}

internal sealed class StationConfiguration : IEntityTypeConfiguration<Station>, IEntityTypeConfiguration<StationKey>, IEntityTypeConfiguration<StationContact>
{
    public void Configure(EntityTypeBuilder<Station> builder)
    {
        builder.Property(s => s.Name).HasMaxLength(StationRules.MaximumNameLength);
        builder.Property(s => s.Place).HasMaxLength(StationRules.MaximumPlaceLength);
        builder.Property(s => s.Theme).HasMaxLength(10);
    }

    public void Configure(EntityTypeBuilder<StationKey> builder)
    {
        builder.HasKey(k => k.StationId);
        builder.Property(k => k.StationId).ValueGeneratedNever();
        builder.Property(k => k.CodeHash).HasMaxLength(64);
        builder.Property(k => k.Hash).HasMaxLength(64);
        builder.Property(k => k.SessionId).HasMaxLength(64);
        builder.HasIndex(k => k.CodeHash).IsUnique();
        builder.HasIndex(k => k.Hash).IsUnique();
        builder.HasOne<Station>().WithOne().HasForeignKey<StationKey>(k => k.StationId).OnDelete(DeleteBehavior.Cascade);
    }

    public void Configure(EntityTypeBuilder<StationContact> builder)
    {
        builder.HasKey(c => c.StationId);
        builder.Property(c => c.StationId).ValueGeneratedNever();
        builder.HasOne<Station>().WithOne().HasForeignKey<StationContact>(c => c.StationId).OnDelete(DeleteBehavior.Cascade);
    }
}
