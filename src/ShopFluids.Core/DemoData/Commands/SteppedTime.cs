namespace ShopFluids.Core.DemoData.Commands;

/// <summary>A clock that stands still until it is set: every act of the history happens at its own time.</summary>
internal sealed class SteppedTime(DateTime startUtc) : TimeProvider
{
    public DateTime UtcNow { get; private set; } = startUtc;

    public override DateTimeOffset GetUtcNow() => new(UtcNow);

    /// <summary>Sets the time. It never goes back: the record's entries follow each other.</summary>
    public void Set(DateTime utc) => UtcNow = utc > UtcNow ? utc : UtcNow;

    public void Advance(TimeSpan by) => Set(UtcNow + by);
}
