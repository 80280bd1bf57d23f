namespace ShopFluids.CrashWriter;

/// <summary>A second for each reading, so that a run says the same however fast it is.</summary>
internal sealed class CountingClock(DateTimeOffset start) : TimeProvider
{
    private DateTimeOffset _now = start;

    public override DateTimeOffset GetUtcNow() => _now;

    public void Step() => _now = _now.AddSeconds(1);
}
