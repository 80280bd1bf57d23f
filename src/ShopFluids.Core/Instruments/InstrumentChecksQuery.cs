using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Time;
using ShopFluids.Rules.InstrumentCheck;

namespace ShopFluids.Core.Instruments;

/// <summary>An instrument and its checks.</summary>
/// <param name="HoldsUntil">The last shop day on which its last check holds; null where it passed none, or needs none.</param>
/// <param name="Checks">The latest first.</param>
/// <param name="IsLapsed">What is read with it now is marked.</param>
public sealed record CheckedInstrument(
    Guid Id, string Tag, InstrumentKind Kind, decimal Resolution, decimal Accuracy, bool NeedsChecks, DateOnly? CheckedOn, DateOnly? HoldsUntil, bool IsLapsed, DateOnly Today, IReadOnlyList<CheckRow> Checks);

/// <summary>One check.</summary>
/// <param name="Person">Who made it; empty for a program.</param>
public sealed record CheckRow(Guid Id, DateOnly CheckedOn, string Person, CheckPoint? First, CheckPoint? Second, bool IsInMillivolts, decimal? Celsius, bool Passes, decimal? Offset, decimal? SlopePercent, string Note)
{
    internal static CheckRow Of(InstrumentCheck check, string person) => new(
        check.Id,
        check.CheckedOn,
        person,
        PointOf(check.FirstStandard, check.FirstShown),
        PointOf(check.SecondStandard, check.SecondShown),
        check.IsInMillivolts,
        check.Celsius,
        check.Passes,
        check.Offset,
        check.SlopePercent,
        check.Note);

    private static CheckPoint? PointOf(decimal? standard, decimal? shown) => standard is { } known && shown is { } read ? new(known, read) : null;
}

public sealed class InstrumentChecksQuery(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    private const int MostChecks = 200;

    /// <summary>Null where no instrument has the tag.</summary>
    public async Task<CheckedInstrument?> RunAsync(string tag, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        var key = Tags.Key(tag);
        if (setup.Instruments.FirstOrDefault(i => i.TagKey == key) is not { } instrument)
        {
            return null;
        }

        var checks = await db.InstrumentChecks.AsNoTracking().Where(c => c.InstrumentId == instrument.Id)
            .OrderByDescending(c => c.CheckedOn).ThenByDescending(c => c.NotedAtUtc).Take(MostChecks).ToListAsync(cancellationToken);
        var people = checks.Select(c => c.PersonId).OfType<Guid>().Distinct().ToList();
        var names = await db.Users.AsNoTracking().Where(p => people.Contains(p.Id)).ToDictionaryAsync(p => p.Id, p => p.DisplayName, cancellationToken);
        var today = setup.Calendar.ShopDayOf(clock.UtcNow);
        return new(
            instrument.Id,
            instrument.Tag,
            instrument.Kind,
            instrument.Resolution,
            instrument.Accuracy,
            instrument.NeedsChecks,
            instrument.CheckedOn,
            instrument.HoldsUntil,
            instrument.IsLapsedOn(today),
            today,
            checks.ConvertAll(c => CheckRow.Of(c, c.PersonId is { } person ? names.GetValueOrDefault(person, "") : "")));
    }
}
