namespace ShopFluids.Core.Time;

/// <summary>The clock as the database keeps it: UTC to the millisecond.</summary>
public sealed class ShopClock(TimeProvider time)
{
    public DateTime UtcNow
    {
        get
        {
            var now = time.GetUtcNow().UtcDateTime;
            return new DateTime(now.Ticks - (now.Ticks % TimeSpan.TicksPerMillisecond), DateTimeKind.Utc);
        }
    }

    /// <summary>A new id that sorts by its time.</summary>
    public Guid NewId() => Guid.CreateVersion7(time.GetUtcNow());
}
