using ShopFluids.Core.Record;

namespace ShopFluids.Core.Tests.Record.Tampering;

/// <summary>An entry of the record in the hands of somebody who owns the database: any field can be written, and the chain can be worked out again.</summary>
internal sealed record ForgedEntry(
    long Sequence, DateTime AtUtc, Guid? ActorId, string ActorName, Guid? StationId, string? StationName, string Code, string Subject, string Changes, string PreviousHash, string Hash, string? Seal)
{
    public static ForgedEntry Of(RecordEntry entry) => new(
        entry.Sequence, entry.AtUtc, entry.ActorId, entry.ActorName, entry.StationId, entry.StationName, entry.Code, entry.Subject, entry.Changes, entry.PreviousHash, entry.Hash, entry.Seal);

    public IReadOnlyList<(string Column, object? Value)> Columns =>
    [
        (nameof(Sequence), Sequence), (nameof(AtUtc), AtUtc), (nameof(ActorId), ActorId), (nameof(ActorName), ActorName), (nameof(StationId), StationId), (nameof(StationName), StationName),
        (nameof(Code), Code), (nameof(Subject), Subject), (nameof(Changes), Changes), (nameof(PreviousHash), PreviousHash), (nameof(Hash), Hash), (nameof(Seal), Seal),
    ];

    /// <summary>The same with the number and the hashes that fit behind another entry, and with the seal that it had: a forger has no key.</summary>
    public ForgedEntry Behind(ForgedEntry? previous)
    {
        var station = StationId is { } id ? new ActorStation(id, StationName ?? "") : null;
        var fitting = new RecordEntry(
            (previous?.Sequence ?? 0) + 1, new Act(Code, new Actor(ActorId, ActorName, station), AtUtc, Subject), Changes, previous?.Hash ?? RecordEntry.FirstPreviousHash);
        return this with { Sequence = fitting.Sequence, PreviousHash = fitting.PreviousHash, Hash = fitting.Hash };
    }
}
