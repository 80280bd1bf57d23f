using ShopFluids.Core.Database;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Limits;
using ShopFluids.Core.Record;
using ShopFluids.Core.Time;
using ShopFluids.Rules.Shipped;

namespace ShopFluids.Core.Setup;

/// <summary>Adds a fluid with the limits that ship for it; they can be changed from an instant on.</summary>
public sealed record AddFluid(Guid Id, FluidData Data, decimal TargetLowPercent, decimal TargetHighPercent);

public sealed class AddFluidHandler(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    public async Task<Result<Saved>> HandleAsync(AddFluid command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        await using var write = await database.WriteAsync(cancellationToken);
        var setup = await setups.ForAsync(write, cancellationToken);
        if (setup.Fluids.Any(f => f.Id == command.Id))
        {
            return new Saved(command.Id);
        }

        var errors = Check(command);
        var key = Fluid.KeyOf(command.Data.Name);
        if (setup.Fluids.Any(f => f.NameKey == key))
        {
            errors.Add(new("name", FieldProblem.NotUnique, Detail: command.Data.Name));
        }

        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        write.Database.Add(new Fluid(command.Id, command.Data with { Name = command.Data.Name.Trim() }));
        write.Database.Add(new LimitSet(
            clock.NewId(),
            command.Id,
            null,
            1,
            DateTime.UnixEpoch,
            [.. ShippedLimits.Default(command.TargetLowPercent, command.TargetHighPercent).Select(l => l.Limits)]));
        await write.CommitAsync(new Act(ActCodes.SetupChanged, actor, clock.UtcNow, command.Data.Name.Trim()), cancellationToken);
        return new Saved(command.Id);
    }

    private static List<FieldError> Check(AddFluid command)
    {
        var errors = new List<FieldError>();
        FluidChecks.Check(errors, command.Data);
        SetupFields.Range(errors, "targetLow", command.TargetLowPercent, FluidChecks.LeastPercent, FluidChecks.MostPercent, "%");
        SetupFields.Range(errors, "targetHigh", command.TargetHighPercent, decimal.Max(FluidChecks.LeastPercent, command.TargetLowPercent), FluidChecks.MostPercent, "%");
        // Between bounds the wrong way round nothing could lie: those are said first.
        if (command.TargetHighPercent >= command.TargetLowPercent)
        {
            SetupFields.Range(errors, "targetPercent", command.Data.TargetPercent, command.TargetLowPercent, command.TargetHighPercent, "%");
        }

        return errors;
    }
}
