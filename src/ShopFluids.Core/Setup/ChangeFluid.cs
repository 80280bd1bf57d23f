using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Record;
using ShopFluids.Core.Time;
using ShopFluids.Core.Tuning;

namespace ShopFluids.Core.Setup;

/// <summary>Changes what is known of a fluid. Readings keep the factors with which they were worked out; limits are changed by themselves.</summary>
/// <param name="SeenVersion">The version that the person saw, so that two people do not overwrite each other.</param>
public sealed record ChangeFluid(Guid Id, FluidData Data, long SeenVersion);

public sealed class ChangeFluidHandler(ShopDatabase database, ShopClock clock)
{
    public async Task<Result<Saved>> HandleAsync(ChangeFluid command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        var errors = new List<FieldError>();
        FluidChecks.Check(errors, command.Data);
        SetupFields.Range(errors, "targetPercent", command.Data.TargetPercent, FluidChecks.LeastPercent, FluidChecks.MostPercent, "%");
        await using var write = await database.WriteAsync(cancellationToken);
        var key = Fluid.KeyOf(command.Data.Name);
        if (await write.Database.Fluids.AnyAsync(f => f.NameKey == key && f.Id != command.Id, cancellationToken))
        {
            errors.Add(new("name", FieldProblem.NotUnique, Detail: command.Data.Name));
        }

        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        if (await write.Database.Fluids.FirstOrDefaultAsync(f => f.Id == command.Id, cancellationToken) is not { } fluid)
        {
            return new FluidNotFound();
        }

        if (fluid.Version != command.SeenVersion)
        {
            return new ChangedMeanwhile(fluid.Version);
        }

        fluid.Change(command.Data with { Name = command.Data.Name.Trim() });
        await write.CommitAsync(new Act(ActCodes.SetupChanged, actor, clock.UtcNow, fluid.Name), cancellationToken);
        return new Saved(fluid.Id);
    }
}

/// <summary>What holds for a fluid whether it is made or changed.</summary>
internal static class FluidChecks
{
    public const decimal LeastPercent = 0.5m;
    public const decimal MostPercent = 50;

    public static void Check(List<FieldError> errors, FluidData data)
    {
        TextChecks.Check(errors, "name", data.Name, 120);
        TextChecks.Check(errors, "wasteCode", data.WasteCode, 20, isRequired: false);
        TextChecks.Check(errors, "safetySheetPlace", data.SafetySheetPlace, 200, isRequired: false);
        TextChecks.Check(errors, "biocide", data.Biocide, 120, isRequired: false);
        SetupFields.Range(errors, "refractometerFactor", data.RefractometerFactor, 0.1m, 10, "%/Brix");
        if (data.TitrationFactor is { } titration)
        {
            SetupFields.Range(errors, "titrationFactor", titration, 0.01m, 10, "%/mL");
        }

        SetupFields.Range(errors, "premixMinimum", data.PremixMinimumPercent, 0, data.TargetPercent, "%");
        SetupFields.Range(errors, "premixMaximum", data.PremixMaximumPercent, data.TargetPercent, 100, "%");
        SetupFields.Range(errors, "shelfLifeDays", data.ShelfLifeDays, 1, 3660, "d");
        if (data.OpenedLifeDays is { } opened)
        {
            SetupFields.Range(errors, "openedLifeDays", opened, 1, 3660, "d");
        }
    }
}
