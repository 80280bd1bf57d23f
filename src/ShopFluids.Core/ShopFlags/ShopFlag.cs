using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Core.Database;
using ShopFluids.Rules;
using ShopFluids.Rules.Findings;

namespace ShopFluids.Core.ShopFlags;

/// <summary>
/// A finding about a lot, a fluid in the stores or an instrument, with the work that it asks for. It is open until somebody answers it or what
/// it found goes away; answered, it is not raised again before that.
/// </summary>
public sealed class ShopFlag : Entity
{
    public const int MaximumAnswerLength = 500;

    private ShopFlag()
    {
    }

    public ShopFlag(Guid id, ShopFinding found, DateTime raisedAtUtc)
    {
        ArgumentNullException.ThrowIfNull(found);
        Id = id;
        Rule = found.Rule;
        RuleVersion = found.RuleVersion;
        Aspect = found.Aspect;
        SubjectId = found.SubjectId;
        Severity = found.Severity;
        Numbers = found.Numbers;
        RaisedAtUtc = raisedAtUtc;
        DueAtUtc = found.DueAt;
    }

    public string Rule { get; private set; } = "";

    public int RuleVersion { get; private set; }

    public string Aspect { get; private set; } = "";

    /// <summary>The lot, the fluid or the instrument, as the aspect says.</summary>
    public Guid SubjectId { get; private set; }

    public Verdict Severity { get; private set; }

    public IReadOnlyDictionary<string, decimal> Numbers { get; private set; } = new Dictionary<string, decimal>(StringComparer.Ordinal);

    public DateTime RaisedAtUtc { get; private set; }

    /// <summary>The moment at which its work becomes late.</summary>
    public DateTime DueAtUtc { get; private set; }

    public DateTime? EscalatedAtUtc { get; private set; }

    public DateTime? AnsweredAtUtc { get; private set; }

    public Guid? AnsweredByPersonId { get; private set; }

    /// <summary>What was done about it.</summary>
    public string? Answer { get; private set; }

    /// <summary>When what it found went away.</summary>
    public DateTime? GoneAtUtc { get; private set; }

    public bool IsOpen => AnsweredAtUtc is null && GoneAtUtc is null;

    public KnownFinding ToKnown() => new(Id, Rule, Aspect, SubjectId, RaisedAtUtc);

    /// <exception cref="InvalidOperationException">It is not open.</exception>
    public void AnswerWith(string answer, DateTime atUtc, Guid? personId)
    {
        if (!IsOpen)
        {
            throw new InvalidOperationException($"Shop flag {Id} is not open.");
        }

        (Answer, AnsweredAtUtc, AnsweredByPersonId) = (answer, atUtc, personId);
    }

    public void GoAway(DateTime atUtc) => GoneAtUtc ??= atUtc;

    public void Escalate(DateTime atUtc) => EscalatedAtUtc ??= atUtc;
}

internal sealed class ShopFlagConfiguration : IEntityTypeConfiguration<ShopFlag>
{
    public void Configure(EntityTypeBuilder<ShopFlag> builder)
    {
        builder.Property(f => f.Rule).HasMaxLength(40);
        builder.Property(f => f.Aspect).HasMaxLength(40);
        builder.Property(f => f.Answer).HasMaxLength(ShopFlag.MaximumAnswerLength);
        builder.Property(f => f.Numbers).HasConversion(JsonColumn.Converter<IReadOnlyDictionary<string, decimal>>(), JsonColumn.Comparer<IReadOnlyDictionary<string, decimal>>());
        builder.Ignore(f => f.IsOpen);
        builder.HasIndex(f => new { f.Rule, f.Aspect, f.SubjectId }, "IX_ShopFlags_OneThere").IsUnique().HasFilter("\"GoneAtUtc\" IS NULL");
        builder.HasIndex(f => new { f.SubjectId, f.RaisedAtUtc });
    }
}
