using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Record.Sealing;

/// <param name="Key">Null for a new one, made for the record as it stands once nobody else writes.</param>
/// <param name="Replaces">Whether it may take the place of a key that sealed entries already.</param>
public sealed record BeginSeal(RecordKey? Key, bool Replaces = false);

/// <summary>The record is sealed already, or no longer stands where the key begins.</summary>
public sealed record AlreadySealed : Error;

/// <summary>
/// Takes a key into use. The act that says so is the first entry that it seals, and names the key; in place of another key also that one, and
/// the last entry before.
/// </summary>
public sealed class BeginSealHandler(ShopDatabase database, RecordSealer sealer, ShopClock clock)
{
    /// <param name="keep">Keeps a new key where it will be found again; called under the writers' lock, before anything is sealed with it.</param>
    public async Task<Result<RecordKey>> HandleAsync(BeginSeal command, Action<RecordKey> keep, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        ArgumentNullException.ThrowIfNull(keep);
        await using var write = await database.WriteAsync(cancellationToken);
        var standing = await SealStandingQuery.OfAsync(write.Database, cancellationToken);
        if (command.Key is null ? standing.IsSealed && !command.Replaces : !command.Key.BeginsAt(standing.Head))
        {
            return new AlreadySealed();
        }

        var former = await write.Database.RecordEntries.Where(e => e.Code == ActCodes.RecordSealed).OrderByDescending(e => e.Sequence).Select(e => e.Subject).FirstOrDefaultAsync(cancellationToken);
        var key = command.Key ?? RecordKey.Make(standing.Head);
        if (command.Key is null)
        {
            keep(key);
        }

        sealer.Use(key);
        var subject = former is null ? key.Id : $"{key.Id} after {standing.Head.Count}:{former.Split(' ')[0]}";
        var act = new Act(ActCodes.RecordSealed, Actor.Program, clock.UtcNow, subject);
        write.Note(act);
        await write.CommitAsync(act, cancellationToken);
        return key;
    }
}
