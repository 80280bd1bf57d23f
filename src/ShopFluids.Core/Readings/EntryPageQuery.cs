using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Limits;
using ShopFluids.Core.Rounds;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;

namespace ShopFluids.Core.Readings;

public sealed class EntryPageQuery(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    private static readonly string[] Usual = [ParameterCodes.Concentration, ParameterCodes.Ph, ParameterCodes.Level];

    // The page that is opened most often, with a person waiting before a machine: its queries are compiled once.
    private readonly Func<ShopFluidsDbContext, Guid, CancellationToken, Task<Standing?>> _standing =
        EF.CompileAsyncQuery((ShopFluidsDbContext db, Guid sumpId, CancellationToken _) => db.Standings.AsNoTracking().FirstOrDefault(s => s.SumpId == sumpId));

    private readonly Func<ShopFluidsDbContext, Guid, IAsyncEnumerable<Guid?>> _inUse =
        EF.CompileAsyncQuery((ShopFluidsDbContext db, Guid sumpId) => db.Readings.Where(r => r.SumpId == sumpId && !db.Readings.Any(later => later.SupersedesId == r.Id))
            .OrderByDescending(r => r.TakenAtUtc).ThenByDescending(r => r.Id).Take(1)
            .SelectMany(r => r.Measurements).Where(m => m.InstrumentId != null).Select(m => m.InstrumentId));

    // Whatever is done about a sump writes its standing anew, doses and corrections too.
    private readonly Func<ShopFluidsDbContext, Guid, CancellationToken, Task<EntryPageStamp>> _stamp =
        EF.CompileAsyncQuery((ShopFluidsDbContext db, Guid sumpId, CancellationToken _) => db.RecordHead
            .Select(h => new EntryPageStamp(h.SetupVersion, db.Standings.Where(s => s.SumpId == sumpId).Select(s => (long?)s.Version).FirstOrDefault()))
            .Single());

    private readonly Func<ShopFluidsDbContext, IAsyncEnumerable<SumpVersion>> _versions =
        EF.CompileAsyncQuery((ShopFluidsDbContext db) => db.Standings.Select(s => new SumpVersion(s.SumpId, s.Version)));

    private readonly KeepAwayQuery _keepAway = new();

    /// <summary>The page, or why this sump cannot be read: not known, retired, empty.</summary>
    /// <param name="isFirst">For the first reading of a refill that is not recorded yet: nothing was read of it, nothing is due.</param>
    public async Task<Result<EntryPage>> RunAsync(string sumpTag, CancellationToken cancellationToken, bool isFirst = false) =>
        await RunAsync(await setups.CurrentAsync(cancellationToken), sumpTag, cancellationToken, isFirst);

    /// <param name="setup">The set-up as the caller has just read it.</param>
    /// <inheritdoc cref="RunAsync(string, CancellationToken, bool)"/>
    public async Task<Result<EntryPage>> RunAsync(ShopSetup setup, string sumpTag, CancellationToken cancellationToken, bool isFirst = false)
    {
        ArgumentNullException.ThrowIfNull(setup);
        if (SumpWithCharge.Find(setup, sumpTag).IsRefused(out var refusal, out var found))
        {
            return refusal;
        }

        var (sump, charge) = found;

        await using var db = await database.ReadAsync(cancellationToken);
        var stamp = await _stamp(db, sump.Id, cancellationToken);
        var standing = isFirst ? null : await _standing(db, sump.Id, cancellationToken);
        var inUse = await _inUse(db, sump.Id).ToListAsync(cancellationToken);
        var now = clock.UtcNow;
        var keepAway = await _keepAway.OfSumpAsync(db, sump.Id, now, cancellationToken);
        return Page(setup, sump, charge, stamp, standing, inUse, keepAway, now);
    }

    /// <summary>What the page of a sump is made of, besides time.</summary>
    public async Task<EntryPageStamp> StampAsync(Guid sumpId, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        return await _stamp(db, sumpId, cancellationToken);
    }

    /// <summary>The same of each sump that can be read.</summary>
    public async Task<IReadOnlyList<(string SumpTag, EntryPageStamp Stamp)>> StampsAsync(CancellationToken cancellationToken)
    {
        var setup = await setups.CurrentAsync(cancellationToken);
        await using var db = await database.ReadAsync(cancellationToken);
        var versions = await _versions(db).ToDictionaryAsync(v => v.SumpId, v => (long?)v.Version, cancellationToken: cancellationToken);
        return [.. setup.Sumps.Where(s => SumpWithCharge.Find(setup, s.Tag).Error is null)
            .Select(s => (s.Tag, new EntryPageStamp(setup.Version, versions.GetValueOrDefault(s.Id))))];
    }

    /// <summary>When a stored reading was taken, so that a repeated sending can say the same; null when the id is new.</summary>
    public async Task<DateTime?> StoredTakenAtAsync(Guid readingId, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        return await db.Readings.AsNoTracking().Where(r => r.Id == readingId).Select(r => (DateTime?)r.TakenAtUtc).FirstOrDefaultAsync(cancellationToken);
    }

    private static EntryPage Page(ShopSetup setup, Sump sump, Charge charge, EntryPageStamp stamp, Standing? standing, List<Guid?> inUse, KeepAway? keepAway, DateTime now)
    {
        var fluid = setup.Fluid(charge.FluidId);
        var today = setup.Calendar.ShopDayOf(now);
        var tests = DueTests.Of(setup, sump.Id, standing?.Facts, today);
        var along = AlongOf(setup, sump, standing?.Facts, tests, today, now);
        var due = AskedFor(tests).Concat(along).ToHashSet(StringComparer.Ordinal);
        var limits = setup.LimitsAt(sump.Id, charge.FluidId, now)?.Limits ?? [];
        var fields = setup.Parameters.SelectMany(parameter => FieldsOf(parameter, fluid.TitrationFactor is not null, sump).Select(field => field with
        {
            Last = standing?.Facts?.Latest.TryGetValue(parameter.Code, out var last) == true ? new(last.Value, last.TakenAt) : null,
            Limits = GaugeLimits.For(parameter.Code, limits, standing?.Facts?.FirstFillPh),
        })).ToList();

        return new(
            SumpPlace.Of(setup, sump, standing?.VolumeLitres),
            fluid.Name,
            fluid.RefractometerFactor,
            setup.Water(sump)?.ZeroBrix ?? 0,
            today.DayNumber - setup.Calendar.ShopDayOf(charge.FilledAtUtc).DayNumber + 1,
            now,
            [.. fields.Where(f => due.Contains(f.Key))],
            [.. fields.Where(f => !due.Contains(f.Key))],
            [.. setup.Instruments.Where(i => i.OutOfUseSince is null).Select(i => new EntryInstrument(i.Tag, i.Kind, i.CompensatesTemperature, i.CheckedOn, inUse.Contains(i.Id), i.IsLapsedOn(today), i.ShowsHundredths))],
            tests.Done,
            FilledTo(sump, standing))
        {
            Stamp = stamp with { Setup = setup.Version },
            HoldsUntilUtc = HoldsUntil(setup, keepAway, now),
            KeepAway = keepAway,
            Along = along,
            IsDue = RoundPageQuery.IsDue(setup, sump, standing?.NextTestDueAtUtc, setup.Calendar.EndOf(today)),
        };
    }

    // Work falls due by the shop day, what was last read is so many calendar days ago.
    private static DateTime HoldsUntil(ShopSetup setup, KeepAway? keepAway, DateTime now)
    {
        var midnights = setup.Calendar with { DayStartHour = 0 };
        return setup.LimitSets.Select(l => l.ValidFromUtc).Where(from => from > now)
            .Append(setup.Calendar.EndOf(setup.Calendar.ShopDayOf(now)))
            .Append(midnights.EndOf(midnights.ShopDayOf(now)))
            .Append(keepAway?.UntilUtc ?? DateTime.MaxValue)
            .Min();
    }

    // Who was there today already is asked only for what is still due.
    private static List<string> AlongOf(ShopSetup setup, Sump sump, StandingFacts? facts, DueTests tests, DateOnly today, DateTime now) =>
        [.. RoundWork.Of(setup, sump.Id, facts, now).Where(w => w.Kind == TaskKind.Test)
            .SelectMany(w => setup.ParametersOfTest(w.Cause))
            .Distinct(StringComparer.Ordinal)
            .Where(p => !tests.Remaining.Contains(p, StringComparer.Ordinal) && !(facts?.Latest.TryGetValue(p, out var latest) == true && setup.Calendar.ShopDayOf(latest.TakenAt) == today))];

    // A concentration is put right by a recipe, and a recipe takes the level as well: who is sent to look again brings both.
    private static IReadOnlyList<string> AskedFor(DueTests tests) =>
        tests.Remaining.Count == 0 ? Usual
        : tests.Remaining.Contains(ParameterCodes.Concentration, StringComparer.Ordinal) && !tests.Done.Contains(ParameterCodes.Level, StringComparer.Ordinal) ? [.. tests.Remaining.Append(ParameterCodes.Level).Distinct(StringComparer.Ordinal)]
        : tests.Remaining;

    // Titration stands beside the refractometer, not instead of it: both may be taken from one sample.
    internal static IEnumerable<EntryField> FieldsOf(Parameter parameter, bool hasTitration, Sump sump)
    {
        var methods = MeasuringMethod.For(parameter);
        var ways = methods.Where(m => m.Code != MeasuringMethod.Titration).SelectMany(m => Ways(m, parameter, sump)).ToList();
        var words = parameter.Scale == ParameterScale.Words ? (int)parameter.PlausibleHigh + 1 : 0;
        yield return new(parameter.Code, parameter.Code, parameter.Unit, parameter.Decimals, ways, words, parameter.UsualLow, parameter.UsualHigh, null, null);

        if (hasTitration && methods.FirstOrDefault(m => m.Code == MeasuringMethod.Titration) is { } titration)
        {
            yield return new($"{parameter.Code}-{titration.Code}", parameter.Code, parameter.Unit, parameter.Decimals, [.. Ways(titration, parameter, sump)], 0, parameter.UsualLow, parameter.UsualHigh, null, null);
        }
    }

    private static IEnumerable<EntryWay> Ways(MeasuringMethod method, Parameter parameter, Sump sump) => method.Units.Select(unit =>
    {
        var (low, high) = AcceptedRange(method, unit, parameter, sump);
        return new EntryWay(method.Code, unit, low, high);
    });

    /// <summary>What may be typed in a unit; null where it is known only after conversion.</summary>
    internal static (decimal? Low, decimal? High) AcceptedRange(MeasuringMethod method, string unit, Parameter parameter, Sump sump) => (method.Code, parameter.Code, unit) switch
    {
        (MeasuringMethod.Refractometer, _, _) => (0, MeasurementReader.MaximumBrix),
        (MeasuringMethod.Titration, _, _) => (0, 100),
        (_, ParameterCodes.Level, "mm") => (0, sump.Shape.BrimMm),
        (_, ParameterCodes.Level, "in") => (0, decimal.Round(sump.Shape.BrimMm / MeasurementReader.MillimetresPerInch, 2, MidpointRounding.ToZero)),
        (_, ParameterCodes.Level, _) => (0, 100),
        _ when unit == method.Units[0] => (parameter.PlausibleLow, parameter.PlausibleHigh),
        _ => (null, null),
    };

    private static double? FilledTo(Sump sump, Standing? standing)
    {
        if (standing is not { VolumeLitres: { } litres, Facts.Latest: { } latest } || !latest.TryGetValue(ParameterCodes.Level, out var level))
        {
            return null;
        }

        var now = sump.StandingLevelMm(litres);
        return now - (double)level.Value >= 1 ? now : null;
    }

    private sealed record SumpVersion(Guid SumpId, long Version);
}
