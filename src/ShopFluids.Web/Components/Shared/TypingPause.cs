namespace ShopFluids.Web.Components.Shared;

/// <summary>Tells when somebody has stopped typing for a moment, so that what follows from it is worked out once and not with every key.</summary>
/// <param name="leaving">Cancelled when the page is left.</param>
public sealed class TypingPause(TimeProvider time, CancellationToken leaving)
{
    public static readonly TimeSpan Length = TimeSpan.FromMilliseconds(400);

    private int _keys;

    /// <summary>Waits; false where something else was typed meanwhile.</summary>
    /// <exception cref="OperationCanceledException">The page was left.</exception>
    public async Task<bool> IsOverAsync()
    {
        var key = ++_keys;
        await Task.Delay(Length, time, leaving);
        return key == _keys;
    }
}
