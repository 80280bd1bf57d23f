using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Live;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.ShopFlags;
using ShopFluids.Core.Time;
using ShopFluids.Rules.InstrumentCheck;

namespace ShopFluids.Core.Instruments;

/// <summary>Notes that an instrument was checked. It passes by what it showed in the standards; without any it was found good or set right, and the note says how.</summary>
/// <param name="Id">Of the check; the same id again is the same check.</param>
/// <param name="CheckedOn">The shop day, not in the future.</param>
public sealed record NoteInstrumentCheck(Guid Id, Guid InstrumentId, DateOnly CheckedOn)
{
    /// <summary>Water for a refractometer, a buffer for a pH meter.</summary>
    public CheckPoint? First { get; init; }

    /// <summary>Only with a first.</summary>
    public CheckPoint? Second { get; init; }

    /// <summary>A pH meter showed millivolts; asks for both buffers and their temperature.</summary>
    public bool IsInMillivolts { get; init; }

    /// <summary>Temperature of the buffers, 0 to 50 °C.</summary>
    public decimal? Celsius { get; init; }

    /// <summary>Up to 500 characters; needed where nothing was read in a standard.</summary>
    public string Note { get; init; } = "";
}

public sealed record InstrumentNotFound(Guid InstrumentId) : Error;

/// <param name="Id">The check.</param>
public sealed record NotedCheck(Guid Id, CheckResult Result);

public sealed class NoteInstrumentCheckHandler(ShopDatabase database, SetupCache setups, ShopClock clock, ShopNews news)
{
    public async Task<Result<NotedCheck>> HandleAsync(NoteInstrumentCheck command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        ArgumentNullException.ThrowIfNull(actor);
        await using var write = await database.WriteAsync(cancellationToken);
        var setup = await setups.ForAsync(write, cancellationToken);
        var db = write.Database;
        if (await db.InstrumentChecks.AsNoTracking().FirstOrDefaultAsync(c => c.Id == command.Id, cancellationToken) is { } known)
        {
            return known.Holds(command)
                ? new NotedCheck(known.Id, new(known.Passes, known.Offset, known.SlopePercent))
                : new OtherContentForId(command.Id);
        }

        if (await db.Instruments.FirstOrDefaultAsync(i => i.Id == command.InstrumentId, cancellationToken) is not { } instrument)
        {
            return new InstrumentNotFound(command.InstrumentId);
        }

        var errors = InstrumentCheckFields.Check(command, instrument, setup.Calendar.ShopDayOf(clock.UtcNow));
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        var now = clock.UtcNow;
        var result = Judge(command, instrument);
        db.Add(new InstrumentCheck(command, result, now, actor.PersonId));
        if (await LatestAsync(db, instrument.Id, cancellationToken) is not { } latest || command.CheckedOn >= latest)
        {
            instrument.Note(command.CheckedOn, result.Passes);
        }

        await write.FlushAsync(cancellationToken);
        await NoticeShopFlagsHandler.NoticeAsync(write, setup, clock, cancellationToken);
        await write.CommitAsync(new Act(ActCodes.InstrumentChecked, actor, now, instrument.Tag), cancellationToken);
        news.Publish(Guid.Empty);
        return new NotedCheck(command.Id, result);
    }

    private static Task<DateOnly?> LatestAsync(ShopFluidsDbContext db, Guid instrumentId, CancellationToken cancellationToken) =>
        db.InstrumentChecks.Where(c => c.InstrumentId == instrumentId).OrderByDescending(c => c.CheckedOn).Select(c => (DateOnly?)c.CheckedOn).FirstOrDefaultAsync(cancellationToken);

    private static CheckResult Judge(NoteInstrumentCheck check, Instrument instrument) =>
        check is { IsInMillivolts: true, First: { } first, Second: { } second, Celsius: { } celsius }
            ? CheckJudge.InMillivolts(first, second, celsius)
            : CheckJudge.OnScale([.. new[] { check.First, check.Second }.OfType<CheckPoint>()], instrument.Accuracy, instrument.Resolution);
}
