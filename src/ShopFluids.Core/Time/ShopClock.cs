namespace ShopFluids.Core.Time;

/// <summary>The clock as the database keeps it: UTC to the millisecond.</summary>
public sealed class ShopClock(TimeProvider time)
{
    public DateTime UtcNow => ToMillisecond(time.GetUtcNow().UtcDateTime);

    /// <summary>A new id that sorts by its time.</summary>
    public Guid NewId() => Guid.CreateVersion7(time.GetUtcNow());

    /// <summary>An instant as it is stored: what is worked out with it before the save is then the same after a load.</summary>
    /// <exception cref="ArgumentException">The instant is not in UTC.</exception>
    public static DateTime ToMillisecond(DateTime instantUtc) =>
        instantUtc.Kind == DateTimeKind.Utc
            ? new DateTime(instantUtc.Ticks - (instantUtc.Ticks % TimeSpan.TicksPerMillisecond), DateTimeKind.Utc)
            : throw new ArgumentException($"An instant of kind {instantUtc.Kind} is no UTC instant; convert it where it is made.", nameof(instantUtc));
}
