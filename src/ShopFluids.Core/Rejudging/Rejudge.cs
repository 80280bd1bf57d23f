using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Live;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Rejudging;

/// <summary>
/// Judges the latest values of every open charge again, by the limits and settings in force now. What was shown when a reading was stored stays
/// as it was; flags begin and end with this act.
/// </summary>
/// <param name="SumpTag">Null for every sump.</param>
public sealed record Rejudge(Guid Id, string? SumpTag, string Reason);

public sealed record RejudgeDone(Guid Id, IReadOnlyList<RejudgedSump> Sumps);

public sealed class RejudgeHandler(ShopDatabase database, SetupCache setups, ShopClock clock, ShopNews news)
{
    public const int MaximumReasonLength = 500;

    public async Task<Result<RejudgeDone>> HandleAsync(Rejudge command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        ArgumentNullException.ThrowIfNull(actor);
        var reason = command.Reason.Trim();
        var errors = new List<FieldError>();
        TextChecks.Check(errors, "reason", reason, MaximumReasonLength);
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        await using var write = await database.WriteAsync(cancellationToken);
        var setup = await setups.ForAsync(write, cancellationToken);
        Sump? only = null;
        if (command.SumpTag is { } tag && (only = setup.FindSump(tag)) is null)
        {
            return new SumpNotFound(tag);
        }

        if (await write.Database.Rejudgements.AsNoTracking().FirstOrDefaultAsync(r => r.Id == command.Id, cancellationToken) is { } known)
        {
            return known.Reason == reason && known.SumpId == only?.Id ? new RejudgeDone(known.Id, known.Sumps) : new OtherContentForId(command.Id);
        }

        if (only is not null && setup.OpenCharge(only.Id) is null)
        {
            return new NoOpenCharge(only.Tag);
        }

        var act = new Rejudgement(command.Id, only?.Id, reason, clock.UtcNow, actor.PersonId);
        write.Database.Add(act);

        // The flags name the act, so it is sent before them.
        await write.FlushAsync(cancellationToken);
        var done = new List<RejudgedSump>();
        var judge = new SumpRejudge(write, setup, clock, act);
        foreach (var sump in only is null ? setup.Sumps.Where(s => !s.IsRetired) : [only])
        {
            if (setup.OpenCharge(sump.Id) is { } charge && await judge.RunAsync(sump, charge, cancellationToken) is { } outcome)
            {
                done.Add(outcome);
            }
        }

        act.Keep(done);
        await write.CommitAsync(new Act(ActCodes.Rejudged, actor, act.AtUtc, only?.Tag ?? setup.Site?.Name ?? ""), cancellationToken);
        foreach (var changed in done.Where(d => d.Raised.Count + d.Ended.Count > 0))
        {
            news.Publish(setup.FindSump(changed.Tag)?.Id ?? Guid.Empty);
        }

        return new RejudgeDone(act.Id, done);
    }
}
