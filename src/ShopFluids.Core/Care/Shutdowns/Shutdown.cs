using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Core.Database;
using ShopFluids.Core.Sumps;
using ShopFluids.Rules.Shutdowns;

namespace ShopFluids.Core.Care.Shutdowns;

/// <summary>Shop days on which one machine stands, or the whole shop: closed days to the planner.</summary>
public sealed class Shutdown : Entity, ISetup
{
    public const int MaximumReasonLength = 200;

    private Shutdown()
    {
    }

    public Shutdown(Guid id, Guid? sumpId, DateOnly firstDay, DateOnly lastDay, string reason)
    {
        Id = id;
        SumpId = sumpId;
        FirstDay = firstDay;
        LastDay = lastDay;
        Reason = reason;
    }

    /// <summary>Null for the whole shop.</summary>
    public Guid? SumpId { get; private set; }

    public DateOnly FirstDay { get; private set; }

    public DateOnly LastDay { get; private set; }

    public string Reason { get; private set; } = "";

    /// <summary>It did not take place.</summary>
    public bool IsWithdrawn { get; private set; }

    public ShutdownFacts ToFacts() => new(Id, FirstDay, LastDay);

    public bool Stands(Guid sumpId, DateOnly day) => Concerns(sumpId) && FirstDay <= day && day <= LastDay;

    public bool Concerns(Guid sumpId) => !IsWithdrawn && (SumpId is null || SumpId == sumpId);

    /// <summary>How it stands on a shop day; on its first day it may still be taken back whole.</summary>
    public ShutdownState StateOn(DateOnly today) => IsWithdrawn ? ShutdownState.Withdrawn
        : LastDay < today ? ShutdownState.Over
        : FirstDay < today ? ShutdownState.Standing
        : ShutdownState.Planned;

    /// <summary>It ends earlier than was planned.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not within it.</exception>
    public void EndOn(DateOnly lastDay) =>
        LastDay = lastDay >= FirstDay && lastDay <= LastDay ? lastDay : throw new ArgumentOutOfRangeException(nameof(lastDay), lastDay, "Not a day of the shutdown.");

    public void Withdraw() => IsWithdrawn = true;
}

public enum ShutdownState
{
    Planned,
    Standing,
    Over,
    Withdrawn,
}

internal sealed class ShutdownConfiguration : IEntityTypeConfiguration<Shutdown>
{
    public void Configure(EntityTypeBuilder<Shutdown> builder)
    {
        builder.Property(s => s.Reason).HasMaxLength(Shutdown.MaximumReasonLength);
        builder.HasOne<Sump>().WithMany().HasForeignKey(s => s.SumpId).OnDelete(DeleteBehavior.Restrict);
    }
}
