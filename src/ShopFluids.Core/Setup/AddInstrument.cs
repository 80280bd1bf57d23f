using ShopFluids.Core.Database;
using ShopFluids.Core.Instruments;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Record;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Setup;

public sealed record AddInstrument(Guid Id, string Tag, InstrumentKind Kind, decimal Resolution, decimal Accuracy, bool CompensatesTemperature, DateOnly? CheckedOn, int? CheckEveryDays = null);

public sealed class AddInstrumentHandler(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    public async Task<Result<Saved>> HandleAsync(AddInstrument command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        await using var write = await database.WriteAsync(cancellationToken);
        var setup = await setups.ForAsync(write, cancellationToken);
        if (setup.Instruments.Any(i => i.Id == command.Id))
        {
            return new Saved(command.Id);
        }

        var errors = new List<FieldError>();
        SetupFields.Tag(errors, "tag", command.Tag);
        InstrumentFieldChecks.Check(errors, command.Kind, command.Resolution, command.Accuracy, command.CheckEveryDays);
        if (setup.Instruments.Any(i => i.TagKey == Tags.Key(command.Tag)))
        {
            errors.Add(new("tag", FieldProblem.NotUnique, Detail: command.Tag));
        }

        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        write.Database.Add(new Instrument(command.Id, command.Tag.Trim(), command.Kind, command.Resolution, command.Accuracy, command.CompensatesTemperature, command.CheckedOn, command.CheckEveryDays));
        await write.CommitAsync(new Act(ActCodes.SetupChanged, actor, clock.UtcNow, command.Tag.Trim()), cancellationToken);
        return new Saved(command.Id);
    }
}

/// <summary>What holds for an instrument whether it is made or changed.</summary>
internal static class InstrumentFieldChecks
{
    // Far above any scale in use, and within what the calculations take; a rule may be marked in centimetres. Common practice, no source.
    private const decimal LargestStep = 1;
    private const decimal LargestStepOfARule = 10;
    private const int LongestCheckDays = 3660;

    public static void Check(List<FieldError> errors, InstrumentKind kind, decimal resolution, decimal accuracy, int? checkEveryDays)
    {
        SetupFields.Range(errors, "resolution", resolution, 0.001m, kind == InstrumentKind.Rule ? LargestStepOfARule : LargestStep);
        SetupFields.Range(errors, "accuracy", accuracy, 0, 5);
        if (checkEveryDays is { } every)
        {
            SetupFields.Range(errors, "checkEveryDays", every, 1, LongestCheckDays, "d");
        }
    }
}
