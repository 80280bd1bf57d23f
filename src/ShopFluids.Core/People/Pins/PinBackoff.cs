using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace ShopFluids.Core.People.Pins;

/// <summary>Wrong PINs of one subject: a tablet, a person, or a person at a tablet. In the database, so that no restart forgets them and all instances share them.</summary>
public sealed class PinBackoff
{
    public const int MaximumSubjectLength = 80;

    private PinBackoff()
    {
    }

    public PinBackoff(string subject, DateTime nowUtc) => (Subject, LastAtUtc, NextAtUtc) = (subject, nowUtc, nowUtc);

    public string Subject { get; private set; } = "";

    public int WrongTries { get; private set; }

    public DateTime LastAtUtc { get; private set; }

    /// <summary>Until then nothing is tried.</summary>
    public DateTime NextAtUtc { get; private set; }

    public static string OfDevice(Guid stationId) => $"d:{stationId:N}";

    public static string OfPerson(Guid personId) => $"p:{personId:N}";

    public static string OfPersonAtDevice(Guid personId, Guid stationId) => $"p:{personId:N}@{stationId:N}";

    /// <summary>When the next try counts. A clock that was set back makes no wait longer than the longest.</summary>
    public DateTime NextAt(BackoffPace pace, DateTime nowUtc)
    {
        if (NextAtUtc > nowUtc + pace.LongestWait)
        {
            (LastAtUtc, NextAtUtc) = (nowUtc, nowUtc + pace.LongestWait);
        }

        return NextAtUtc;
    }

    /// <summary>Counted as wrong before it is looked at: tries that are sent at once cannot all slip through.</summary>
    public void Count(BackoffPace pace, DateTime nowUtc)
    {
        WrongTries = pace.Remembered(WrongTries, LastAtUtc, nowUtc) + 1;
        (LastAtUtc, NextAtUtc) = (nowUtc, nowUtc + pace.WaitAfter(WrongTries));
    }

    /// <summary>The counted try was right after all: as if it had not been, unless others came in between.</summary>
    internal void TakeBack(PinCount before, PinCount counted)
    {
        if (Now == counted)
        {
            (WrongTries, LastAtUtc, NextAtUtc) = (before.WrongTries, before.LastAtUtc, before.NextAtUtc);
        }
        else
        {
            WrongTries = Math.Max(0, WrongTries - 1);
        }
    }

    internal PinCount Now => new(WrongTries, LastAtUtc, NextAtUtc);

    internal void Forget() => (WrongTries, NextAtUtc) = (0, LastAtUtc);
}

/// <summary>A count as it stood at a moment.</summary>
internal readonly record struct PinCount(int WrongTries, DateTime LastAtUtc, DateTime NextAtUtc);

internal sealed class PinBackoffConfiguration : IEntityTypeConfiguration<PinBackoff>
{
    public void Configure(EntityTypeBuilder<PinBackoff> builder)
    {
        builder.HasKey(b => b.Subject);
        builder.Ignore(b => b.Now);
        builder.Property(b => b.Subject).HasMaxLength(PinBackoff.MaximumSubjectLength);
    }
}
