using ShopFluids.Core.Database;
using ShopFluids.Core.Live;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Care.Shutdowns;

/// <summary>Plans days on which a machine, or the whole shop, stands; the work before, meanwhile and after is made at once.</summary>
/// <param name="SumpTag">Null for the whole shop.</param>
public sealed record PlanShutdown(Guid Id, string? SumpTag, DateOnly FirstDay, DateOnly LastDay, string Reason);

/// <param name="Tasks">How many tasks were made.</param>
/// <param name="IsNew">False when it had been planned just so before.</param>
public sealed record PlannedShutdown(Guid Id, int Tasks, bool IsNew = true);

/// <summary>Another shutdown of the same sump, or of the shop, has one of these days.</summary>
public sealed record ShutdownsOverlap(DateOnly FirstDay, DateOnly LastDay) : Error;

public sealed class PlanShutdownHandler(ShopDatabase database, SetupCache setups, ShopClock clock, ShopNews news)
{
    /// <summary>How far back a machine may already stand, how far ahead a shutdown may begin, and how long it lasts at most. Common practice, no source.</summary>
    public const int MostDaysBack = 30;
    public const int MostDays = 366;

    public async Task<Result<PlannedShutdown>> HandleAsync(PlanShutdown command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        await using var write = await database.WriteAsync(cancellationToken);
        var db = write.Database;
        var setup = await setups.ForAsync(write, cancellationToken);
        if (setup.Shutdowns.FirstOrDefault(s => s.Id == command.Id) is { } known)
        {
            return IsSame(known, command, setup) ? new PlannedShutdown(known.Id, 0, IsNew: false) : new OtherContentForId(command.Id);
        }

        Sump? only = null;
        if (command.SumpTag is { } tag && (only = setup.FindSump(tag)) is null)
        {
            return new SumpNotFound(tag);
        }

        if (only is { IsRetired: true })
        {
            return new SumpRetired(only.Tag);
        }

        var errors = Check(command, setup.Calendar.ShopDayOf(clock.UtcNow));
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        var shutdown = new Shutdown(command.Id, only?.Id, command.FirstDay, command.LastDay, command.Reason.Trim());
        if (setup.Shutdowns.FirstOrDefault(s => IsBeside(s, shutdown)) is { } other)
        {
            return new ShutdownsOverlap(other.FirstDay, other.LastDay);
        }

        db.Add(shutdown);
        await write.FlushAsync(cancellationToken);
        var planner = new ShutdownPlanner(db, setup, clock);
        var sumps = only is null ? setup.Sumps.Where(s => !s.IsRetired).ToList() : [only];
        var tasks = 0;
        foreach (var sump in sumps)
        {
            var calendar = setup.CalendarFor(sump.Id, [.. setup.Shutdowns, shutdown]);
            await planner.MoveAsync(shutdown, sump, calendar, cancellationToken);
            if (setup.OpenCharge(sump.Id) is { } charge && !planner.IsCovered(shutdown, sump.Id))
            {
                await planner.EndCoveredAsync(shutdown, sump, actor.PersonId, cancellationToken);
                await write.FlushAsync(cancellationToken);
                tasks += await planner.PlanAsync(shutdown, sump, charge, calendar, cancellationToken);
            }

            await StandingKeeper.RefreshAsync(write, sump, cancellationToken);
        }

        await write.CommitAsync(new Act(ActCodes.ShutdownPlanned, actor, clock.UtcNow, only?.Tag ?? setup.Site?.Name ?? ""), cancellationToken);
        sumps.ForEach(s => news.Publish(s.Id));
        return new PlannedShutdown(shutdown.Id, tasks);
    }

    // The shop may stand while one machine stands longer; two of a kind would plan everything twice.
    private static bool IsBeside(Shutdown a, Shutdown b) => !a.IsWithdrawn && a.SumpId == b.SumpId && a.FirstDay <= b.LastDay && b.FirstDay <= a.LastDay;

    private static bool IsSame(Shutdown known, PlanShutdown command, ShopSetup setup) =>
        known.SumpId == (command.SumpTag is { } tag ? setup.FindSump(tag)?.Id : null)
        && (known.FirstDay, known.LastDay, known.Reason) == (command.FirstDay, command.LastDay, command.Reason.Trim());

    private static List<FieldError> Check(PlanShutdown command, DateOnly today)
    {
        var errors = new List<FieldError>();
        var (first, last) = (today.AddDays(-MostDaysBack), today.AddDays(MostDays));
        if (command.FirstDay < first || command.FirstDay > last)
        {
            errors.Add(new("firstDay", FieldProblem.DayOutOfRange, FirstDay: first, LastDay: last));
        }
        else if (command.LastDay < command.FirstDay || command.LastDay < today || command.LastDay >= command.FirstDay.AddDays(MostDays))
        {
            errors.Add(new("lastDay", FieldProblem.DayOutOfRange, FirstDay: command.FirstDay > today ? command.FirstDay : today, LastDay: command.FirstDay.AddDays(MostDays - 1)));
        }

        TextChecks.Check(errors, "reason", command.Reason.Trim(), Shutdown.MaximumReasonLength);
        return errors;
    }
}
