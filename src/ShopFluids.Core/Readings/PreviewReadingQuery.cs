using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings.Corrections;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Readings;

/// <summary>Answers what storing a reading would answer, and stores nothing.</summary>
public sealed class PreviewReadingQuery(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    private readonly ChargeHistoryQuery _history = new();

    public async Task<Result<ReadingOutcome>> RunAsync(RecordReading command, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        command = command with { TakenAtUtc = ShopClock.ToMillisecond(command.TakenAtUtc) };
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        if (SumpWithCharge.Find(setup, command.SumpTag).IsRefused(out var refusal, out var found))
        {
            return refusal;
        }

        var (sump, charge) = found;

        var now = clock.UtcNow;
        var (worked, errors) = ReadingChecks.Check(command, setup, sump, charge, now, await ReadingCorrection.HeldAsync(db, command.SupersedesId, cancellationToken));
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        var standing = await db.Standings.AsNoTracking().SingleAsync(s => s.SumpId == sump.Id, cancellationToken);
        if (command.SupersedesId is { } supersededId)
        {
            if (await ReadingCorrection.CheckAsync(db, supersededId, charge, cancellationToken) is { } error)
            {
                return error;
            }

            (await StandingRebuild.FromHistoryAsync(db, sump, cancellationToken, withoutReading: supersededId)).ApplyTo(standing);
        }

        var facts = standing.Facts ?? StandingFold.Fresh(charge.FilledAtUtc, []);
        var history = await _history.RunAsync(db, charge, command.TakenAtUtc, cancellationToken, without: command.SupersedesId);
        var late = await LateArrivals.ForAsync(db, command, standing, charge, cancellationToken);
        var evaluation = ReadingJudge.For(setup, sump, charge, command.TakenAtUtc).Judge(ReadingJudge.FactsOf(command, worked), facts, history, now, late);
        return ReadingJudge.Outcome(command.Id, worked, evaluation, facts, clock.NewId);
    }
}
