using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Calculations.Mixing;
using ShopFluids.Core.Care.Finds;
using ShopFluids.Core.Database;
using ShopFluids.Core.Record;
using ShopFluids.Core.Sumps;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Core.Care;

public enum TaskState : short
{
    Open = 1,
    Done = 2,
    Skipped = 3,

    /// <summary>Its cause went away.</summary>
    Withdrawn = 4,
}

/// <summary>Work with a due time. It ends once; at most one is open for a sump, kind and cause.</summary>
public sealed class CareTask : Entity
{
    private CareTask()
    {
    }

    public CareTask(Guid id, Guid sumpId, TaskKind kind, string cause, Guid? stepId, DateTime dueAtUtc, DateTime createdAtUtc, Guid? readingId, TopUpRecipe? recipe)
    {
        Id = id;
        SumpId = sumpId;
        Kind = kind;
        Cause = cause;
        StepId = stepId;
        DueAtUtc = dueAtUtc;
        CreatedAtUtc = createdAtUtc;
        ReadingId = readingId;
        Recipe = recipe;
        State = TaskState.Open;
    }

    public Guid SumpId { get; private set; }

    public TaskKind Kind { get; private set; }

    /// <summary><c>step:{id}</c> of the care plan or <c>{rule}:{parameter}</c> of a flag.</summary>
    public string Cause { get; private set; } = "";

    public Guid? StepId { get; private set; }

    /// <summary>The moment at which it becomes late.</summary>
    public DateTime DueAtUtc { get; private set; }

    public DateTime CreatedAtUtc { get; private set; }

    /// <summary>The reading that led to it.</summary>
    public Guid? ReadingId { get; private set; }

    public TopUpRecipe? Recipe { get; private set; }

    /// <summary>The interval after which it was planned, where that follows what was found.</summary>
    public decimal? IntervalDays { get; private set; }

    /// <summary>Of a test whose interval follows the risk: what set its day.</summary>
    public TestReason? Why { get; private set; }

    public Guid? AssignedToId { get; private set; }

    public TaskState State { get; private set; }

    public DateTime? EndedAtUtc { get; private set; }

    public Guid? EndedByPersonId { get; private set; }

    public Guid? EndedByReadingId { get; private set; }

    /// <summary>The dose that did it.</summary>
    public Guid? EndedByDoseId { get; private set; }

    public string? EndReason { get; private set; }

    /// <summary>What was found when it was done; null when nothing was said.</summary>
    public WorkFind? Found { get; private set; }

    /// <summary>The task that was given another day, in whose place this one came; null where nobody chose the day.</summary>
    public Guid? InsteadOfId { get; private set; }

    /// <summary>It was given another day, for a reason; another task took its place. Work that goes with what asked for it goes without a reason.</summary>
    public bool IsRedated => State == TaskState.Withdrawn && EndReason is not null;

    public OpenTask ToOpen() => new(Id, Kind, Cause, DueAtUtc) { IsDayChosen = InsteadOfId is not null };

    public void PlannedAfter(decimal intervalDays) => IntervalDays = intervalDays;

    /// <summary>Its day follows the risk.</summary>
    public void PlannedBecause(TestReason why)
    {
        ArgumentNullException.ThrowIfNull(why);
        (Why, IntervalDays) = (why, why.Days);
    }

    /// <summary>A later reading gives a fresher recipe for the same adjustment.</summary>
    public void Renew(TopUpRecipe recipe) => Recipe = recipe;

    /// <summary>It becomes late at another time: the shop or its machine stands, or the work before it was not done after all.</summary>
    public void Move(DateTime dueAtUtc) => DueAtUtc = dueAtUtc;

    /// <summary>The same work for another day: what led to it and who has it stay, what set the old day does not.</summary>
    public CareTask Again(Guid id, DateTime dueAtUtc) =>
        new(id, SumpId, Kind, Cause, StepId, dueAtUtc, CreatedAtUtc, ReadingId, Recipe) { AssignedToId = AssignedToId, IntervalDays = IntervalDays, InsteadOfId = Id };

    public void Assign(Guid? personId) => AssignedToId = personId;

    /// <exception cref="InvalidOperationException">It has ended already.</exception>
    public void End(TaskState state, DateTime atUtc, Guid? personId, Guid? readingId = null, string? reason = null)
    {
        if (State != TaskState.Open)
        {
            throw new InvalidOperationException($"Task {Id} ended already.");
        }

        State = state;
        EndedAtUtc = atUtc;
        EndedByPersonId = personId;
        EndedByReadingId = readingId;
        EndReason = reason;
    }

    /// <summary>It is done by a dose.</summary>
    public void EndByDose(Guid doseId, DateTime atUtc, Guid? personId)
    {
        End(TaskState.Done, atUtc, personId);
        EndedByDoseId = doseId;
    }

    /// <summary>Notes what was found.</summary>
    /// <exception cref="InvalidOperationException">It is not done.</exception>
    public void Note(WorkFind found)
    {
        if (State != TaskState.Done)
        {
            throw new InvalidOperationException($"Task {Id} is not done.");
        }

        Found = found;
    }
}

internal sealed class CareTaskConfiguration : IEntityTypeConfiguration<CareTask>
{
    public void Configure(EntityTypeBuilder<CareTask> builder)
    {
        builder.Property(t => t.Cause).HasMaxLength(120);
        builder.Property(t => t.EndReason).HasMaxLength(500);
        builder.Property(t => t.Recipe).HasConversion(JsonColumn.Converter<TopUpRecipe>(), JsonColumn.Comparer<TopUpRecipe>());
        builder.Property(t => t.IntervalDays).CameLater();
        builder.Property(t => t.EndedByDoseId).CameLater();
        builder.Property(t => t.InsteadOfId).CameLater();
        builder.Property(t => t.Why).CameLater().HasConversion(JsonColumn.Converter<TestReason>(), JsonColumn.Comparer<TestReason>());
        builder.Property(t => t.Found).CameLater().HasConversion(JsonColumn.Converter<WorkFind>(), JsonColumn.Comparer<WorkFind>());
        builder.HasIndex(t => new { t.SumpId, t.Kind, t.Cause }, "IX_CareTasks_OneOpen").IsUnique().HasFilter("\"State\" = 1");
        builder.HasIndex(t => new { t.State, t.DueAtUtc });
        builder.HasIndex(t => new { t.SumpId, t.EndedAtUtc });
        builder.HasIndex(t => t.StepId);
        builder.HasIndex(t => t.EndedByDoseId);
        builder.HasOne<Sump>().WithMany().HasForeignKey(t => t.SumpId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<CareStep>().WithMany().HasForeignKey(t => t.StepId).OnDelete(DeleteBehavior.Restrict);
    }
}
