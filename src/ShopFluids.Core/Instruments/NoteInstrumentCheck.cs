using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Live;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.ShopFlags;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Instruments;

/// <summary>Notes that an instrument was checked, and found good or set right.</summary>
public sealed record NoteInstrumentCheck(Guid InstrumentId, DateOnly CheckedOn);

public sealed record InstrumentNotFound(Guid InstrumentId) : Error;

public sealed class NoteInstrumentCheckHandler(ShopDatabase database, SetupCache setups, ShopClock clock, ShopNews news)
{
    public async Task<Result<Saved>> HandleAsync(NoteInstrumentCheck command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        await using var write = await database.WriteAsync(cancellationToken);
        var setup = await setups.ForAsync(write, cancellationToken);
        if (await write.Database.Instruments.FirstOrDefaultAsync(i => i.Id == command.InstrumentId, cancellationToken) is not { } instrument)
        {
            return new InstrumentNotFound(command.InstrumentId);
        }

        var today = setup.Calendar.ShopDayOf(clock.UtcNow);
        if (command.CheckedOn > today.AddDays(1))
        {
            return new FieldErrors([new("checkedOn", FieldProblem.InTheFuture)]);
        }

        // What is noted late does not take back a check made since.
        if (instrument.CheckedOn is not { } last || command.CheckedOn > last)
        {
            instrument.Check(command.CheckedOn);
            await write.FlushAsync(cancellationToken);
            await NoticeShopFlagsHandler.NoticeAsync(write, setup, clock, cancellationToken);
            await write.CommitAsync(new Act(ActCodes.InstrumentChecked, actor, clock.UtcNow, instrument.Tag), cancellationToken);
            news.Publish(Guid.Empty);
        }

        return new Saved(instrument.Id);
    }
}
