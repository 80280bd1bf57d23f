using System.Globalization;
using ShopFluids.Core.Record.Sealing;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Settings;

namespace ShopFluids.Web.Startup.Sealing;

/// <summary>What a program wants of the record.</summary>
internal enum RecordUse
{
    /// <summary>To add to it: its end must be sealed with the key that is there.</summary>
    Write,

    /// <summary>To prove it: a sealed record needs its key; what does not fit it is for the proof to say. A proof makes no key.</summary>
    Prove,

    /// <summary>To give it another key.</summary>
    ChangeKey,
}

/// <summary>Finds the key to the record and gives it to the sealer; makes one for a record that has none. A key that is lost is not made anew.</summary>
internal sealed class RecordKeyOpening(
    SealStandingQuery standings, BeginSealHandler begin, RecordSealer sealer, RecordKeyFile file, ShopSettings settings, ShopClock clock, ILogger<RecordKeyOpening> log)
{
    /// <returns>Null when the record can be used; else why not, in words.</returns>
    public async Task<string?> OpenAsync(RecordUse use, CancellationToken cancellationToken)
    {
        if (use == RecordUse.ChangeKey)
        {
            return null;
        }

        var (key, fault) = Find();
        if (fault is not null)
        {
            return fault;
        }

        var standing = await standings.RunAsync(cancellationToken);
        if (key is null)
        {
            return standing.IsSealed ? Say(Texts.Start_RecordKeyLost, file.Path)
                : use == RecordUse.Prove ? null
                : await BeginAsync(null, use, cancellationToken);
        }

        sealer.Use(key);
        if (use == RecordUse.Prove || key.HasSealed(standing.Head.Hash, standing.LastSeal))
        {
            return null;
        }

        // The first start with this key, or the one after a start that was cut off.
        return key.BeginsAt(standing.Head) ? await BeginAsync(key, use, cancellationToken)
            : settings.RecordKey is not null && key.Since.Count == 0 && !standing.IsSealed ? Say(Texts.Start_RecordKeySince, standing.Head)
            : Say(Texts.Start_RecordKeyOther, standing.Head.Count, key.Id);
    }

    private (RecordKey? Key, string? Fault) Find()
    {
        try
        {
            return (settings.RecordKey ?? file.Read(), null);
        }
        catch (InvalidDataException)
        {
            return (null, Say(Texts.Start_RecordKeyUnreadable, file.Path));
        }
    }

    private async Task<string?> BeginAsync(RecordKey? key, RecordUse use, CancellationToken cancellationToken)
    {
        var begun = await begin.HandleAsync(new BeginSeal(key), made => file.Write(made, clock.UtcNow), cancellationToken);
        if (begun.Value is not { } taken)
        {
            // Another program was first: its key is in the file by now, or it has the same from its settings, or ours is the wrong one.
            return await OpenAsync(use, cancellationToken);
        }

        log.RecordSealed(taken.Id);
        return null;
    }

    private static string Say(string pattern, params object?[] values) => string.Format(CultureInfo.InvariantCulture, pattern, values);
}
