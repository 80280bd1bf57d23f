using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
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
        if (command.SupersedesId is { } supersededId)
        {
            // What the other reading led to is taken back as a correction takes it back, in a write that is never committed.
            await using var write = await database.WriteAsync(cancellationToken);
            return await AnswerAsync(command, await setups.ForAsync(write, cancellationToken), write.Database, PrepareAsync, cancellationToken);

            async Task<(Error? Error, Standing Standing, IReadOnlyList<string> Reassess)> PrepareAsync(Sump sump, Charge charge, DateTime now)
            {
                var standing = await StandingAsync(write.Database, sump, cancellationToken);
                var correction = new ReadingCorrection(write.Database, sump);
                if (await correction.PrepareAsync(supersededId, charge, now, cancellationToken) is { } error)
                {
                    return (error, standing, []);
                }

                await write.FlushAsync(cancellationToken);
                (await StandingRebuild.FromHistoryAsync(write.Database, sump, cancellationToken, withoutReading: supersededId)).ApplyTo(standing);
                return (null, standing, await correction.ReassessAsync(supersededId, standing.Facts, cancellationToken));
            }
        }

        await using var db = await database.ReadAsync(cancellationToken);
        return await AnswerAsync(command, await setups.CurrentAsync(db, cancellationToken), db, async (sump, _, _) => (null, await StandingAsync(db, sump, cancellationToken), []), cancellationToken);
    }

    private async Task<Result<ReadingOutcome>> AnswerAsync(
        RecordReading command, ShopSetup setup, ShopFluidsDbContext db, Func<Sump, Charge, DateTime, Task<(Error? Error, Standing Standing, IReadOnlyList<string> Reassess)>> prepare, CancellationToken cancellationToken)
    {
        if (setup.FindSump(command.SumpTag) is not { } sump)
        {
            return new SumpNotFound(command.SumpTag);
        }

        if (sump.IsRetired)
        {
            return new SumpRetired(sump.Tag);
        }

        if (setup.OpenCharge(sump.Id) is not { } charge)
        {
            return new NoOpenCharge(sump.Tag);
        }

        var now = clock.UtcNow;
        var (worked, errors) = ReadingChecks.Check(command, setup, sump, charge, now);
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        var (error, standing, reassess) = await prepare(sump, charge, now);
        if (error is not null)
        {
            return error;
        }

        var facts = standing.Facts ?? StandingFold.Fresh(charge.FilledAtUtc, []);
        var history = await _history.RunAsync(db, charge, command.TakenAtUtc, cancellationToken, without: command.SupersedesId);
        var late = await LateArrivals.ForAsync(db, command, standing, charge, cancellationToken);
        var evaluation = ReadingJudge.For(setup, sump, charge, command.TakenAtUtc).Judge(ReadingJudge.FactsOf(command, worked), facts, history, now, reassess, late);
        return ReadingJudge.Outcome(command.Id, worked, evaluation, facts, clock.NewId);
    }

    private static Task<Standing> StandingAsync(ShopFluidsDbContext db, Sump sump, CancellationToken cancellationToken) =>
        db.Standings.AsNoTracking().SingleAsync(s => s.SumpId == sump.Id, cancellationToken);
}
