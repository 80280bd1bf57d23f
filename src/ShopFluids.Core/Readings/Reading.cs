using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Sumps;
using ShopFluids.Rules;

namespace ShopFluids.Core.Readings;

/// <summary>One visit to a sump. Never edited: a correction is a new reading that names the one it supersedes.</summary>
public sealed class Reading : Entity
{
    public const int MaximumNoteLength = 2000;
    public const int MaximumReasonLength = 500;

    private Reading()
    {
    }

    public Reading(Guid id, Guid sumpId, Guid chargeId, DateTime takenAtUtc, DateTime storedAtUtc, Guid personId, string note, string fingerprint)
    {
        Id = id;
        SumpId = sumpId;
        ChargeId = chargeId;
        TakenAtUtc = takenAtUtc;
        StoredAtUtc = storedAtUtc;
        PersonId = personId;
        Note = note;
        Fingerprint = fingerprint;
    }

    public Guid SumpId { get; private set; }

    public Guid ChargeId { get; private set; }

    public DateTime TakenAtUtc { get; private set; }

    public DateTime StoredAtUtc { get; private set; }

    public Guid PersonId { get; private set; }

    public string Note { get; private set; } = "";

    /// <summary>SHA-256 of what was sent, so that the same id with other content is recognised.</summary>
    public string Fingerprint { get; private set; } = "";

    public Guid? SupersedesId { get; private set; }

    /// <summary>Why the superseded reading was wrong.</summary>
    public string? CorrectionReason { get; private set; }

    public Verdict Verdict { get; private set; }

    /// <summary>What the person was told when it was stored; a repeated write is answered with it.</summary>
    public ReadingOutcome? Outcome { get; private set; }

    public IReadOnlyCollection<Measurement> Measurements => _measurements;

    private readonly List<Measurement> _measurements = [];

    public void Add(Measurement measurement) => _measurements.Add(measurement);

    public void Supersede(Guid readingId, string reason)
    {
        SupersedesId = readingId;
        CorrectionReason = reason;
    }

    public void Judge(ReadingOutcome outcome)
    {
        Verdict = outcome.Verdict;
        Outcome = outcome;
    }
}

/// <summary>One parameter's value inside a reading: as read, and as worked out with the factor and temperature used.</summary>
public sealed class Measurement : IRecorded
{
    public Guid ReadingId { get; private set; }

    public string Parameter { get; private set; } = "";

    /// <summary>Empty where there is only one way.</summary>
    public string Method { get; private set; } = "";

    public decimal RawValue { get; private set; }

    public string RawUnit { get; private set; } = "";

    public Guid? InstrumentId { get; private set; }

    public decimal? TemperatureCelsius { get; private set; }

    /// <summary>Refractometer or titration factor used.</summary>
    public decimal? Factor { get; private set; }

    /// <summary>What the refractometer shows for the make-up water, taken off, Brix.</summary>
    public decimal? ZeroBrix { get; private set; }

    /// <summary>Worked out, in the parameter's canonical unit and rounded to its resolution: shown, judged and printed as it stands.</summary>
    public double Value { get; private set; }

    /// <summary>Expanded uncertainty, k = 2.</summary>
    public double Uncertainty { get; private set; }

    public Verdict Verdict { get; private set; }

    public Direction Direction { get; private set; }

    public Guid? LimitSetId { get; private set; }

    /// <summary>It was unlikely and the person kept it.</summary>
    public bool IsConfirmed { get; private set; }

    private Measurement()
    {
    }

    internal Measurement(Guid readingId, WorkedMeasurement worked, Verdict verdict, Direction direction, Guid? limitSetId)
    {
        ReadingId = readingId;
        Parameter = worked.Parameter.Code;
        Method = worked.Method;
        RawValue = worked.RawValue;
        RawUnit = worked.RawUnit;
        InstrumentId = worked.InstrumentId;
        TemperatureCelsius = worked.TemperatureCelsius;
        Factor = worked.Factor;
        ZeroBrix = worked.ZeroBrix;
        Value = (double)worked.Value;
        Uncertainty = (double)worked.Uncertainty;
        Verdict = verdict;
        Direction = direction;
        LimitSetId = limitSetId;
        IsConfirmed = worked.IsConfirmed;
    }
}

internal sealed class ReadingConfiguration : IEntityTypeConfiguration<Reading>, IEntityTypeConfiguration<Measurement>
{
    public void Configure(EntityTypeBuilder<Reading> builder)
    {
        builder.HasIndex(r => new { r.SumpId, r.TakenAtUtc });
        builder.HasIndex(r => new { r.ChargeId, r.TakenAtUtc });
        builder.HasIndex(r => r.SupersedesId).IsUnique();
        builder.Property(r => r.Note).HasMaxLength(Reading.MaximumNoteLength);
        builder.Property(r => r.Fingerprint).HasMaxLength(64);
        builder.Property(r => r.CorrectionReason).HasMaxLength(Reading.MaximumReasonLength);
        builder.Property(r => r.Outcome).HasConversion(JsonColumn.Converter<ReadingOutcome>(), JsonColumn.Comparer<ReadingOutcome>());
        builder.HasOne<Sump>().WithMany().HasForeignKey(r => r.SumpId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Charge>().WithMany().HasForeignKey(r => r.ChargeId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Reading>().WithMany().HasForeignKey(r => r.SupersedesId).OnDelete(DeleteBehavior.Restrict);
        builder.HasMany(r => r.Measurements).WithOne().HasForeignKey(m => m.ReadingId).OnDelete(DeleteBehavior.Restrict);
        builder.Navigation(r => r.Measurements).HasField("_measurements").UsePropertyAccessMode(PropertyAccessMode.Field);
    }

    public void Configure(EntityTypeBuilder<Measurement> builder)
    {
        builder.HasKey(m => new { m.ReadingId, m.Parameter, m.Method });
        builder.Property(m => m.Parameter).HasMaxLength(40);
        builder.Property(m => m.Method).HasMaxLength(40);
        builder.Property(m => m.RawUnit).HasMaxLength(20);
    }
}
