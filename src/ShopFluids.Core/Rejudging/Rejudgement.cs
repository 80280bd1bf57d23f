using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.Rejudging;

/// <summary>One act of judging the latest readings again, by the limits and settings in force then: who, why, and what it did.</summary>
public sealed class Rejudgement : Entity
{
    private Rejudgement()
    {
    }

    public Rejudgement(Guid id, Guid? sumpId, string reason, DateTime atUtc, Guid? personId)
    {
        Id = id;
        SumpId = sumpId;
        Reason = reason;
        AtUtc = atUtc;
        PersonId = personId;
    }

    /// <summary>Null where every sump was judged again.</summary>
    public Guid? SumpId { get; private set; }

    public string Reason { get; private set; } = "";

    public DateTime AtUtc { get; private set; }

    /// <summary>Null for the program.</summary>
    public Guid? PersonId { get; private set; }

    /// <summary>Every sump that was looked at, by its tag.</summary>
    public IReadOnlyList<RejudgedSump> Sumps { get; private set; } = [];

    internal void Keep(IReadOnlyList<RejudgedSump> sumps) => Sumps = sumps;
}

/// <param name="Raised">The ids of the flags that it raised.</param>
/// <param name="Ended">The ids of the flags that it ended.</param>
public sealed record RejudgedSump(string Tag, IReadOnlyList<Guid> Raised, IReadOnlyList<Guid> Ended);

internal sealed class RejudgementConfiguration : IEntityTypeConfiguration<Rejudgement>
{
    public void Configure(EntityTypeBuilder<Rejudgement> builder)
    {
        builder.Property(r => r.Reason).HasMaxLength(RejudgeHandler.MaximumReasonLength);
        builder.Property(r => r.Sumps).HasConversion(JsonColumn.Converter<IReadOnlyList<RejudgedSump>>(), JsonColumn.Comparer<IReadOnlyList<RejudgedSump>>());
        builder.HasOne<Sumps.Sump>().WithMany().HasForeignKey(r => r.SumpId).OnDelete(DeleteBehavior.Restrict);
    }
}
