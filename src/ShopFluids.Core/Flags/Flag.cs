using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Rejudging;
using ShopFluids.Core.Sumps;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;

namespace ShopFluids.Core.Flags;

public enum FlagEnd : short
{
    /// <summary>A later reading cleared it; a late test also ends with the act after which none is late.</summary>
    Cleared = 1,

    /// <summary>A supervisor closed it with a reason.</summary>
    Closed = 2,

    /// <summary>The charge ended.</summary>
    ChargeEnded = 3,

    /// <summary>The reading that raised it was superseded.</summary>
    Superseded = 4,

    /// <summary>Its reading was judged again, by other limits or settings.</summary>
    Rejudged = 5,
}

/// <summary>A finding of a rule, in a code and numbers, open until it ends once.</summary>
public sealed class Flag : Entity
{
    private Flag()
    {
    }

    public Flag(Guid id, Guid sumpId, Guid chargeId, RaisedFlag raised, Guid? readingId, DateTime raisedAtUtc, Guid? limitSetId, IReadOnlyDictionary<string, decimal>? tuning = null, Guid? rejudgementId = null)
    {
        Id = id;
        SumpId = sumpId;
        ChargeId = chargeId;
        Rule = raised.Rule;
        RuleVersion = raised.RuleVersion;
        Parameter = raised.Parameter;
        Severity = raised.Severity;
        Direction = raised.Direction;
        Numbers = raised.Numbers;
        ReadingId = readingId;
        RaisedAtUtc = raisedAtUtc;
        LimitSetId = limitSetId;
        Tuning = tuning;
        RejudgementId = rejudgementId;
    }

    public Guid SumpId { get; private set; }

    public Guid ChargeId { get; private set; }

    public string Rule { get; private set; } = "";

    public int RuleVersion { get; private set; }

    /// <summary>Empty when it is about the sump.</summary>
    public string Parameter { get; private set; } = "";

    public Verdict Severity { get; private set; }

    public Direction Direction { get; private set; }

    public IReadOnlyDictionary<string, decimal> Numbers { get; private set; } = new Dictionary<string, decimal>(StringComparer.Ordinal);

    /// <summary>The act that raised it by judging its reading again; null where the reading itself did, or a clock.</summary>
    public Guid? RejudgementId { get; private set; }

    /// <summary>The reading in which it was found; null when a clock raised it.</summary>
    public Guid? ReadingId { get; private set; }

    public DateTime RaisedAtUtc { get; private set; }

    public Guid? LimitSetId { get; private set; }

    /// <summary>
    /// The numbers that a shop may tune, as the rule used them, set or default; null where the rule has none, and for flags from before they
    /// were kept.
    /// </summary>
    public IReadOnlyDictionary<string, decimal>? Tuning { get; private set; }

    /// <summary>When it went to the supervisor because nobody had answered it.</summary>
    public DateTime? EscalatedAtUtc { get; private set; }

    public DateTime? EndedAtUtc { get; private set; }

    public FlagEnd? EndedHow { get; private set; }

    public Guid? EndedByReadingId { get; private set; }

    public Guid? EndedByPersonId { get; private set; }

    public string? EndReason { get; private set; }

    public void Escalate(DateTime atUtc) => EscalatedAtUtc ??= atUtc;

    public OpenFlag ToOpen() => new(Id, Rule, Parameter, Severity, Direction, Numbers);

    /// <exception cref="InvalidOperationException">It has ended already.</exception>
    public void End(FlagEnd how, DateTime atUtc, Guid? readingId = null, Guid? personId = null, string? reason = null)
    {
        if (EndedAtUtc is not null)
        {
            throw new InvalidOperationException($"Flag {Id} ended already.");
        }

        EndedHow = how;
        EndedAtUtc = atUtc;
        EndedByReadingId = readingId;
        EndedByPersonId = personId;
        EndReason = reason;
    }
}

internal sealed class FlagConfiguration : IEntityTypeConfiguration<Flag>
{
    public void Configure(EntityTypeBuilder<Flag> builder)
    {
        builder.Property(f => f.Rule).HasMaxLength(40);
        builder.Property(f => f.Parameter).HasMaxLength(40);
        builder.Property(f => f.EscalatedAtUtc).CameLater();
        builder.Property(f => f.EndReason).HasMaxLength(500);
        builder.Property(f => f.Numbers).HasConversion(JsonColumn.Converter<IReadOnlyDictionary<string, decimal>>(), JsonColumn.Comparer<IReadOnlyDictionary<string, decimal>>());
        builder.Property(f => f.Tuning).HasConversion(JsonColumn.Converter<IReadOnlyDictionary<string, decimal>>(), JsonColumn.Comparer<IReadOnlyDictionary<string, decimal>>()).CameLater();
        builder.Property(f => f.RejudgementId).CameLater();
        builder.HasOne<Rejudgement>().WithMany().HasForeignKey(f => f.RejudgementId).OnDelete(DeleteBehavior.Restrict);
        builder.HasIndex(f => new { f.SumpId, f.Rule, f.Parameter }, "IX_Flags_OneOpen").IsUnique().HasFilter("\"EndedAtUtc\" IS NULL");
        builder.HasIndex(f => new { f.SumpId, f.RaisedAtUtc });
        builder.HasOne<Sump>().WithMany().HasForeignKey(f => f.SumpId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Charge>().WithMany().HasForeignKey(f => f.ChargeId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Reading>().WithMany().HasForeignKey(f => f.ReadingId).OnDelete(DeleteBehavior.Restrict);
    }
}
