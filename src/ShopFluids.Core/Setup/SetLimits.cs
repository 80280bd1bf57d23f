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
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        var subject = command.FluidId is { } fluid ? setup.Fluid(fluid).Name : setup.FindSump(command.SumpId.GetValueOrDefault())?.Tag ?? "";
        write.Database.Add(new LimitSet(command.Id, command.FluidId, command.SumpId, own.Select(l => l.Number).DefaultIfEmpty(0).Max() + 1, command.ValidFromUtc, command.Limits));
        await write.CommitAsync(new Act(ActCodes.SetupChanged, actor, clock.UtcNow, subject), cancellationToken);
        return new Saved(command.Id);
    }

    private List<FieldError> Check(SetLimits command, ShopSetup setup, List<LimitSet> own)
    {
        var errors = new List<FieldError>();
        if (command.FluidId is null == command.SumpId is null
            || (command.FluidId is { } fluid && setup.Fluids.All(f => f.Id != fluid))
            || (command.SumpId is { } sump && setup.FindSump(sump) is null))
        {
            errors.Add(new("owner", FieldProblem.UnknownChoice));
        }

        // Limits reach into the past only before the shop's first reading under them; otherwise from now on.
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

        return errors;
    }

    private static void CheckOne(List<FieldError> errors, ParameterLimits limits, ShopSetup setup)
    {
        var field = $"limits.{limits.Parameter}";
        if (setup.FindParameter(limits.Parameter) is not { } parameter)
        {
            errors.Add(new(field, FieldProblem.UnknownParameter));
            return;
        }

        decimal?[] ladder = [limits.ActionLow, limits.WarningLow, limits.TargetLow, limits.TargetHigh, limits.WarningHigh, limits.ActionHigh];
        var given = ladder.OfType<decimal>().ToList();
        if (given.Zip(given.Skip(1)).Any(p => p.Second < p.First))
        {
            errors.Add(new(field, FieldProblem.NotAscending));
        }

        foreach (var value in given.Where(v => limits.Basis == LimitBasis.Value && (v < parameter.PlausibleLow || v > parameter.PlausibleHigh)))
        {
            errors.Add(new(field, FieldProblem.OutOfRange, value, parameter.PlausibleLow, parameter.PlausibleHigh, parameter.Unit));
        }

        // A margin of more than half the band could never be met inside it, so the flag could never clear.
        var widest = limits is { WarningLow: { } low, WarningHigh: { } high } && high >= low ? (high - low) / 2 : parameter.PlausibleHigh;
        SetupFields.Range(errors, $"{field}.clearMargin", limits.ClearMargin, 0, widest, parameter.Unit);
    }
}
