namespace ShopFluids.Core.People.Pins;

/// <summary>
/// How long one waits after wrong tries: nothing for the first few, then longer with each, up to a longest wait and never for good. Each
/// stretch without a wrong try takes one from the count.
/// </summary>
/// <param name="FreeTries">So many wrong tries cost no wait.</param>
/// <param name="FirstWait">After the last free one; doubled with each further.</param>
/// <param name="LongestWait">No wait is longer.</param>
/// <param name="ForgottenAfter">So long without a wrong try makes one undone.</param>
public sealed record BackoffPace(int FreeTries, TimeSpan FirstWait, TimeSpan LongestWait, TimeSpan ForgottenAfter)
{
    /// <summary>All tries at one tablet, whoever they are for: at most 30 in any hour, and about 8 an hour for whoever goes on.</summary>
    public static BackoffPace Device { get; } = new(10, TimeSpan.FromSeconds(30), TimeSpan.FromMinutes(15), TimeSpan.FromMinutes(6));

    /// <summary>Tries for one person at one tablet.</summary>
    public static BackoffPace PersonAtDevice { get; } = new(4, TimeSpan.FromSeconds(30), TimeSpan.FromMinutes(15), TimeSpan.FromMinutes(15));

    /// <summary>Tries for one person at all tablets together. The waits are short: a stranger at one tablet must not keep the person from another.</summary>
    public static BackoffPace Person { get; } = new(15, TimeSpan.FromSeconds(15), TimeSpan.FromMinutes(2), TimeSpan.FromMinutes(5));

    public TimeSpan WaitAfter(int wrongTries)
    {
        if (wrongTries < FreeTries)
        {
            return TimeSpan.Zero;
        }

        var wait = FirstWait;
        for (var i = FreeTries; i < wrongTries && wait < LongestWait; i++)
        {
            wait *= 2;
        }

        return wait < LongestWait ? wait : LongestWait;
    }

    /// <summary>How many of the tries counted by then still count now.</summary>
    public int Remembered(int wrongTries, DateTime lastAtUtc, DateTime nowUtc)
    {
        var quiet = nowUtc - lastAtUtc;
        return quiet <= TimeSpan.Zero ? wrongTries : (int)Math.Max(0, wrongTries - (quiet.Ticks / ForgottenAfter.Ticks));
    }
}
