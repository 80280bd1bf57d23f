namespace ShopFluids.Core.Database;

/// <summary>A thing with an id that its maker chose (UUIDv7), so that writing it twice is the same write.</summary>
public abstract class Entity : IVersioned, IRecorded
{
    public Guid Id { get; protected init; }

    /// <summary>Raised on every save; the concurrency token on both engines.</summary>
    public long Version { get; private set; }
}

/// <summary>Carries a concurrency token that <see cref="ShopFluidsDbContext"/> raises on save.</summary>
public interface IVersioned
{
    long Version { get; }
}

/// <summary>Every change of such an entity stands in the record; a save without an act is refused.</summary>
public interface IRecorded;

/// <summary>Set-up that evaluations read from a snapshot; a change raises the set-up version so that every instance loads it anew.</summary>
public interface ISetup : IRecorded;
