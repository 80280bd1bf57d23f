using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Limits;
using ShopFluids.Core.Record;
using ShopFluids.Core.Time;
using ShopFluids.Rules.Facts;

namespace ShopFluids.Core.Setup;

/// <summary>Makes the next version of the limits of a fluid or of one sump, in force from an instant on. What was judged before stays as it was.</summary>
public sealed record SetLimits(Guid Id, Guid? FluidId, Guid? SumpId, DateTime ValidFromUtc, IReadOnlyList<ParameterLimits> Limits);

public sealed class SetLimitsHandler(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    public async Task<Result<Saved>> HandleAsync(SetLimits command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        await using var write = await database.WriteAsync(cancellationToken);
        var setup = await setups.ForAsync(write, cancellationToken);
        if (setup.LimitSets.Any(l => l.Id == command.Id))
        {
            return new Saved(command.Id);
        }

        var own = setup.LimitSets.Where(l => l.FluidId == command.FluidId && l.SumpId == command.SumpId).ToList();
        var errors = Check(command, setup, own);
        if (await LatestReadingAsync(write.Database, command, cancellationToken) is { } latest && command.ValidFromUtc <= latest)
        {
            errors.Add(new("validFrom", FieldProblem.BeforeTheLastReading, EarliestUtc: latest.AddMilliseconds(1)));
        }

        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        var subject = command.FluidId is { } fluid ? setup.Fluid(fluid).Name : setup.FindSump(command.SumpId.GetValueOrDefault())?.Tag ?? "";
        write.Database.Add(new LimitSet(command.Id, command.FluidId, command.SumpId, own.Select(l => l.Number).DefaultIfEmpty(0).Max() + 1, command.ValidFromUtc, command.Limits));
        await write.CommitAsync(new Act(ActCodes.SetupChanged, actor, clock.UtcNow, subject), cancellationToken);
        return new Saved(command.Id);
    }

    // Limits reach into the past as long as nothing has been read that they would have judged.
    private static Task<DateTime?> LatestReadingAsync(ShopFluidsDbContext db, SetLimits command, CancellationToken cancellationToken) =>
        db.Readings
            .Where(r => command.SumpId != null ? r.SumpId == command.SumpId : db.Charges.Any(c => c.Id == r.ChargeId && c.FluidId == command.FluidId))
            .MaxAsync(r => (DateTime?)r.TakenAtUtc, cancellationToken);

    private List<FieldError> Check(SetLimits command, ShopSetup setup, List<LimitSet> own)
    {
        var errors = new List<FieldError>();
        if (command.FluidId is null == command.SumpId is null
            || (command.FluidId is { } fluid && setup.Fluids.All(f => f.Id != fluid))
            || (command.SumpId is { } sump && setup.FindSump(sump) is null))
        {
            errors.Add(new("owner", FieldProblem.UnknownChoice));
        }

        if (own.Count > 0 && command.ValidFromUtc < own.Max(l => l.ValidFromUtc))
        {
            errors.Add(new("validFrom", FieldProblem.NotAscending));
        }

        if (command.ValidFromUtc > clock.UtcNow.AddYears(1))
        {
            errors.Add(new("validFrom", FieldProblem.InTheFuture));
        }

        foreach (var limits in command.Limits)
        {
            CheckOne(errors, limits, setup);
        }

        // The first of two would judge and the second would only be shown.
        errors.AddRange(command.Limits.GroupBy(l => (l.Parameter, l.Basis)).Where(g => g.Count() > 1)
            .Select(g => new FieldError($"limits.{g.Key.Parameter}", FieldProblem.NotUnique, Detail: g.Key.Parameter)));
        return errors;
    }

    private static void CheckOne(List<FieldError> errors, ParameterLimits limits, ShopSetup setup)
    {
        var field = $"limits.{limits.Parameter}";
        var before = errors.Count;
        if (setup.FindParameter(limits.Parameter) is not { } parameter)
        {
            errors.Add(new(field, FieldProblem.UnknownParameter));
            return;
        }

        if (!Enum.IsDefined(limits.Basis))
        {
            errors.Add(new(field, FieldProblem.UnknownChoice));
            return;
        }

        decimal?[] ladder = [limits.ActionLow, limits.WarningLow, limits.TargetLow, limits.TargetHigh, limits.WarningHigh, limits.ActionHigh];
        var given = ladder.OfType<decimal>().ToList();
        if (given.Zip(given.Skip(1)).Any(p => p.Second < p.First))
        {
            errors.Add(new(field, FieldProblem.NotAscending));
        }

        // A fall is reckoned downwards and is not negative; it cannot be wider than what can be measured.
        var (low, high) = limits.Basis == LimitBasis.Value
            ? (parameter.PlausibleLow, parameter.PlausibleHigh)
            : (0, parameter.PlausibleHigh - parameter.PlausibleLow);
        errors.AddRange(given.Where(v => v < low || v > high).Select(v => new FieldError(field, FieldProblem.OutOfRange, v, low, high, parameter.Unit)));
        if (errors.Count == before)
        {
            SetupFields.Range(errors, $"{field}.clearMargin", limits.ClearMargin, 0, WidestMargin(limits, low, high), parameter.Unit);
        }
    }

    // The flag clears a margin inside its limit: there must be a value that lies so far inside, from both sides where there are two.
    private static decimal WidestMargin(ParameterLimits limits, decimal plausibleLow, decimal plausibleHigh)
    {
        var (low, high) = (limits.WarningLow ?? limits.ActionLow, limits.WarningHigh ?? limits.ActionHigh);
        var room = (high ?? plausibleHigh) - (low ?? plausibleLow);
        return decimal.Max(0, low is null || high is null ? room : room / 2);
    }
}
