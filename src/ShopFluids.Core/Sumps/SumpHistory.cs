using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Finds;
using ShopFluids.Core.Charges;
using ShopFluids.Core.CleanOuts;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Rounds;
using ShopFluids.Rules;

namespace ShopFluids.Core.Sumps;

/// <summary>What happened at one sump in a stretch of time; every list newest first.</summary>
/// <param name="Flags">Raised in it, or open at its beginning.</param>
/// <param name="Tasks">Ended in it.</param>
public sealed record SumpHistory(
    IReadOnlyList<HistoryReading> Readings,
    IReadOnlyList<HistoryMovement> Movements,
    IReadOnlyList<HistoryFlag> Flags,
    IReadOnlyList<HistoryTask> Tasks)
{
    /// <summary>Begun before its end and not ended before its beginning.</summary>
    public IReadOnlyList<HistoryCleanOut> CleanOuts { get; init; } = [];

    /// <summary>Additives that were put in.</summary>
    public IReadOnlyList<DoseRow> Doses { get; init; } = [];

    /// <summary>Rounds that passed the sump by.</summary>
    public IReadOnlyList<HistorySkip> Skips { get; init; } = [];
}

public sealed record HistorySkip(Guid Id, DateTime AtUtc, SkipReason Reason, string Words, string By);

public sealed record HistoryReading(
    Guid Id,
    DateTime TakenAtUtc,
    string By,
    Verdict Verdict,
    Direction Direction,
    IReadOnlyList<HistoryMeasurement> Measurements,
    string Note,
    HistoryCorrection? SupersededBy)
{
    /// <summary>Its value was read of a dip slide after the slide's window, or corrects one that was; null where it was not.</summary>
    public HistoryLateSlide? LateSlide { get; init; }
}

/// <param name="ReadUntilUtc">The end of its window.</param>
public sealed record HistoryLateSlide(DateTime ReadAtUtc, DateTime ReadUntilUtc);

/// <summary>Why a reading or a dose no longer counts: when, by whom, and the reason given.</summary>
public sealed record HistoryCorrection(DateTime AtUtc, string By, string Reason);

public sealed record HistoryMeasurement(
    string Parameter, string Method, decimal RawValue, string RawUnit, double Value, double Uncertainty, Verdict Verdict, Direction Direction, decimal? Factor, Guid? InstrumentId);

public enum MovementKind
{
    Fill = 0,
    Addition = 1,
    Removal = 2,
    Drain = 3,
}

/// <summary>Something put in or taken out.</summary>
/// <param name="Reason">Of a removal as stored, or why a barred lot was allowed.</param>
public sealed record HistoryMovement(
    Guid Id,
    Guid ChargeId,
    MovementKind Kind,
    DateTime AtUtc,
    decimal WaterLitres,
    decimal ConcentrateLitres,
    decimal RemovedLitres,
    HistoryLot? Lot,
    string By,
    string Reason)
{
    /// <summary>What was unusual about an addition and noted all the same.</summary>
    public UnusualAddition Unusual { get; init; }
}

public sealed record HistoryLot(Guid Id, string Number, string FluidName, DateOnly ReceivedOn, DateOnly ExpiresOn)
{
    /// <summary>The lots of a fill, which may come from more than one; null when no concentrate went in.</summary>
    public static string? NumbersOf(IEnumerable<HistoryMovement> movements)
    {
        var numbers = movements.Select(m => m.Lot?.Number).OfType<string>().Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal).ToList();
        return numbers.Count == 0 ? null : string.Join(", ", numbers);
    }
}

/// <param name="ReplacedBy">Ended by a reading that raised another flag of its rule and parameter in its place: it was not cleared.</param>
public sealed record HistoryFlag(
    Guid Id,
    string Rule,
    string Parameter,
    Verdict Severity,
    Direction Direction,
    IReadOnlyDictionary<string, decimal> Numbers,
    DateTime RaisedAtUtc,
    DateTime? EndedAtUtc,
    FlagEnd? EndedHow,
    string EndedBy,
    string EndReason,
    HistoryFlagReplacement? ReplacedBy = null);

/// <summary>What the replacing flag found.</summary>
public sealed record HistoryFlagReplacement(Verdict Severity, Direction Direction, IReadOnlyDictionary<string, decimal> Numbers);

public sealed record HistoryTask(Guid Id, TaskKind Kind, string Cause, Calculations.Mixing.TopUpRecipe? Recipe, DateTime DueAtUtc, TaskState State, DateTime EndedAtUtc, string By, string Reason, WorkFind? Found = null)
{
    /// <summary>It was given another day: only then somebody says why it is withdrawn.</summary>
    public bool IsRedated => State == TaskState.Withdrawn && Reason.Length > 0;

    /// <summary>When the work becomes late by the day that it was given; null where it was given none.</summary>
    public DateTime? RedatedToUtc { get; init; }

    /// <summary>It ended as done by a dose that was struck out since.</summary>
    public bool IsOfStruckDose { get; init; }
}

/// <summary>A draining and cleaning, step by step.</summary>
/// <param name="BrokenOffReason">Null where it was not broken off; empty where the charge was drained in another way.</param>
public sealed record HistoryCleanOut(Guid Id, DateTime BegunAtUtc, DateTime? EndedAtUtc, string EndedBy, string? BrokenOffReason, IReadOnlyList<HistoryCleanOutStep> Steps)
{
    /// <summary>What left the machine in all its steps, by waste code.</summary>
    public IReadOnlyList<WasteAmount> Waste => [.. Steps.SelectMany(s => s.Noted.Waste ?? []).GroupBy(w => w.Code).Select(g => new WasteAmount(g.Key, g.Sum(w => w.Litres)))];
}

public sealed record HistoryCleanOutStep(CleanOutStepKind Kind, CleanOutNote Noted, DateTime DoneAtUtc, string By);
