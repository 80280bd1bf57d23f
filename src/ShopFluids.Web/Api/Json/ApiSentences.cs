using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Api.Json;

/// <summary>
/// The sentences of answers, in the site's culture and units. Remembered for a few seconds: a stream of readings must not ask
/// for the set-up each time only to word its answers.
/// </summary>
internal sealed class ApiSentences(SetupCache setups, TimeProvider time)
{
    private static readonly TimeSpan RememberedFor = TimeSpan.FromSeconds(5);
    private Entry? _latest;

    public async ValueTask<Sentences> CurrentAsync(CancellationToken cancellationToken) => (await LatestAsync(cancellationToken)).Sentences;

    /// <summary>The same in a person's own units, for what they read on their page; null takes the site's.</summary>
    public async ValueTask<Sentences> InUnitsAsync(UnitSystem? units, CancellationToken cancellationToken)
    {
        var latest = await LatestAsync(cancellationToken);
        return units is null || units == latest.Sentences.Format.Units ? latest.Sentences : new Sentences(latest.Setup.FormatFor(units), latest.Setup);
    }

    private async ValueTask<Entry> LatestAsync(CancellationToken cancellationToken)
    {
        var latest = Volatile.Read(ref _latest);
        if (latest is null || time.GetElapsedTime(latest.AskedAt) > RememberedFor)
        {
            var setup = await setups.CurrentAsync(cancellationToken);
            latest = new Entry(setup, new Sentences(setup.FormatFor(), setup), time.GetTimestamp());
            Volatile.Write(ref _latest, latest);
        }

        return latest;
    }

    private sealed record Entry(ShopSetup Setup, Sentences Sentences, long AskedAt);
}
