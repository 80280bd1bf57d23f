using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Core.Database;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.OverdueTest;

namespace ShopFluids.Core.Sumps;

/// <summary>
/// Where a sump stands now, kept beside the history so that the board and the rules read one row. It always equals what a
/// rebuild from the history gives; <c>verify</c> proves it. Derived, hence not in the record.
/// </summary>
public sealed class Standing : IVersioned
{
    private Standing()
    {
    }

    public Standing(Guid sumpId) => SumpId = sumpId;

    public Guid SumpId { get; private set; }

    /// <summary>The open charge; null when the sump is empty.</summary>
    public Guid? ChargeId { get; private set; }

    /// <summary>The worst of the open flags and the latest values. Lateness is not in it: it changes with the clock, see <see cref="NextTestDueAtUtc"/>.</summary>
    public Verdict Verdict { get; private set; }

    public Direction Direction { get; private set; }

    public DateTime? LastReadAtUtc { get; private set; }

    public double? VolumeLitres { get; private set; }

    public int OpenFlagCount { get; private set; }

    /// <summary>When the next test becomes late.</summary>
    public DateTime? NextTestDueAtUtc { get; private set; }

    /// <summary>When the earliest open task becomes late.</summary>
    public DateTime? NextDueAtUtc { get; private set; }

    /// <summary>What the rules look at.</summary>
    public StandingFacts? Facts { get; private set; }

    public long Version { get; private set; }

    /// <summary>Replaces everything by what <paramref name="facts"/> say.</summary>
    public void Set(Guid? chargeId, StandingFacts? facts, DateTime? lastReadAtUtc, double? volumeLitres)
    {
        ChargeId = chargeId;
        Facts = facts;
        LastReadAtUtc = lastReadAtUtc;
        VolumeLitres = volumeLitres;
        OpenFlagCount = facts?.OpenFlags.Count ?? 0;
        NextTestDueAtUtc = facts?.OpenTasks.Where(t => t.Kind == TaskKind.Test).Select(t => (DateTime?)t.DueAt).Min();
        NextDueAtUtc = facts?.OpenTasks.Select(t => (DateTime?)t.DueAt).Min();
        (Verdict, Direction) = Worst(facts);
    }

    private static (Verdict, Direction) Worst(StandingFacts? facts)
    {
        if (facts is null)
        {
            return (Verdict.NotMeasured, Direction.None);
        }

        var worst = facts.Latest.Values.Select(l => (l.Verdict, l.Direction))
            .Concat(facts.OpenFlags.Where(f => f.Rule != OverdueTestRule.Code).Select(f => (Verdict: f.Severity, Direction: f.Parameter.Length == 0 ? Direction.None : f.Direction)))
            .OrderByDescending(v => v.Item1)
            .ThenBy(v => v.Item2)
            .ToList();
        if (worst.Count == 0)
        {
            return (Verdict.NotMeasured, Direction.None);
        }

        // Two findings of one rank on different sides have no side together.
        var sides = worst.TakeWhile(v => v.Item1 == worst[0].Item1).Select(v => v.Item2).Distinct().ToList();
        return (worst[0].Item1, sides.Count == 1 ? sides[0] : Direction.None);
    }
}

internal sealed class StandingConfiguration : IEntityTypeConfiguration<Standing>
{
    public void Configure(EntityTypeBuilder<Standing> builder)
    {
        builder.HasKey(s => s.SumpId);
        builder.Property(s => s.Facts).HasConversion(JsonColumn.Converter<StandingFacts>(), JsonColumn.Comparer<StandingFacts>());
        builder.HasOne<Sump>().WithOne().HasForeignKey<Standing>(s => s.SumpId).OnDelete(DeleteBehavior.Restrict);
    }
}
