using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Instruments;
using ShopFluids.Core.Record;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Setup;

/// <summary>
/// Changes what is known of an instrument. Its tag and kind stay, and its checks have a page of their own; readings keep the uncertainty that
/// they were stored with.
/// </summary>
/// <param name="IsInUse">False for one that is lost, broken or put away: nobody is offered it or asked to check it.</param>
/// <param name="SeenVersion">The version that the person saw, so that two people do not overwrite each other.</param>
public sealed record ChangeInstrument(Guid Id, decimal Resolution, decimal Accuracy, bool CompensatesTemperature, int? CheckEveryDays, bool IsInUse, long SeenVersion);

public sealed class ChangeInstrumentHandler(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    public async Task<Result<Saved>> HandleAsync(ChangeInstrument command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        await using var write = await database.WriteAsync(cancellationToken);
        var setup = await setups.ForAsync(write, cancellationToken);
        if (await write.Database.Instruments.FirstOrDefaultAsync(i => i.Id == command.Id, cancellationToken) is not { } instrument)
        {
            return new InstrumentNotFound(command.Id);
        }

        var errors = new List<FieldError>();
        InstrumentFieldChecks.Check(errors, instrument.Kind, command.Resolution, command.Accuracy, command.CheckEveryDays);
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        if (instrument.Version != command.SeenVersion)
        {
            return new ChangedMeanwhile(instrument.Version);
        }

        instrument.Change(command.Resolution, command.Accuracy, command.CompensatesTemperature, command.CheckEveryDays);
        instrument.Use(command.IsInUse, setup.Calendar.ShopDayOf(clock.UtcNow));
        await write.CommitAsync(new Act(ActCodes.SetupChanged, actor, clock.UtcNow, instrument.Tag), cancellationToken);
        return new Saved(instrument.Id);
    }
}
