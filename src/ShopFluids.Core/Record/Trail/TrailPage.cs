using ShopFluids.Core.Setup;
using ShopFluids.Rules;

namespace ShopFluids.Core.Record.Trail;

/// <summary>A page of the record, the latest entry first.</summary>
/// <param name="Found">How many entries the filter finds, on all pages.</param>
/// <param name="All">How many entries there are.</param>
/// <param name="HeadHash">The fingerprint of the whole record.</param>
/// <param name="Next">The filter's <see cref="TrailFilter.Before"/> for the page after this one; null on the last.</param>
/// <param name="Actors">Who has acted so far, in the order of names.</param>
/// <param name="Names">What the ids on this page stand for.</param>
/// <param name="Columns">What the columns hold.</param>
public sealed record TrailPage(
    ShopSetup Setup,
    IReadOnlyList<TrailEntry> Entries,
    int Found,
    long All,
    string HeadHash,
    long? Next,
    IReadOnlyList<TrailActor> Actors,
    IReadOnlyDictionary<Guid, string> Names,
    TrailColumns Columns)
{
    /// <summary>What the tasks are of which rows stand on this page, by their ids.</summary>
    public IReadOnlyDictionary<Guid, (TaskKind Kind, string Cause)> Tasks { get; init; } = new Dictionary<Guid, (TaskKind, string)>();

    /// <summary>What the flags are about of which rows stand on this page, by their ids.</summary>
    public IReadOnlyDictionary<Guid, (string Rule, string Parameter)> Flags { get; init; } = new Dictionary<Guid, (string, string)>();

    /// <summary>When the first entry was made; null in an empty record.</summary>
    public DateTime? FirstAtUtc { get; init; }

    /// <summary>When the first biocide or fungicide that counts was given; null where none was.</summary>
    public DateTime? FirstExposureUtc { get; init; }
}

/// <summary>One act.</summary>
/// <param name="Station">The shared tablet at which it was done; null elsewhere.</param>
/// <param name="Rows">Null where the entry was changed by hand and can no longer be read.</param>
public sealed record TrailEntry(long Sequence, DateTime AtUtc, string Actor, string? Station, string Code, string Subject, string Hash, IReadOnlyList<RowChange>? Rows);

/// <summary>Somebody who has acted.</summary>
/// <param name="Key">What <see cref="TrailFilter.Who"/> takes.</param>
/// <param name="Name">As it is now: a number for who has left.</param>
public sealed record TrailActor(string Key, string Name);

/// <summary>An entry as it is kept, with the name of who acted and what it was done to as they are told.</summary>
public sealed record NamedEntry(RecordEntry Entry, string Person, string Subject);
