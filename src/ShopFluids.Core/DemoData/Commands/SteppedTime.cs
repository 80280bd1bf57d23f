namespace ShopFluids.Core.DemoData.Commands;

/// <summary>A clock that stands still until it is set: every act of the history happens at its own time.</summary>
/// <param name="startUtc">Where it begins.</param>
/// <param name="latestUtc">It goes no further: a history does not reach into the future, however early in the day it is made.</param>
internal sealed class SteppedTime(DateTime startUtc, DateTime latestUtc) : TimeProvider
{
    public DateTime UtcNow { get; private set; } = startUtc;

    public override DateTimeOffset GetUtcNow() => new(UtcNow);

    /// <summary>Sets the time. It never goes back: the record's entries follow each other.</summary>
    public void Set(DateTime utc)
    {
        var reached = utc < latestUtc ? utc : latestUtc;
        UtcNow = reached > UtcNow ? reached : UtcNow;
    }

    public void Advance(TimeSpan by) => Set(UtcNow + by);
}
