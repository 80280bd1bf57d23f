using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Board;
using ShopFluids.Core.Care;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Patterns;
using ShopFluids.Core.Photos;
using ShopFluids.Core.Rounds;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sheets;
using ShopFluids.Core.Sumps.Losses;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Advice;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Patterns;

namespace ShopFluids.Core.Sumps;

/// <summary>Everything about one sump on one page: where it stands, what is open, and what happened since the fill.</summary>
/// <param name="Charge">Null when the sump stands empty.</param>
/// <param name="History">Since the fill; of an empty sump, the last 90 days.</param>
public sealed record SumpPage(
    DateTime AtUtc,
    DateTime FromUtc,
    ShopSetup Setup,
    SumpPlace Place,
    IReadOnlyList<SumpPageMachine> Machines,
    SumpStanding Standing,
    SumpPageCharge? Charge,
    IReadOnlyList<SumpFigure> Figures,
    SumpVolume? Volume,
    DateTime? NextTestDueAtUtc,
    OpenWork Open,
    IReadOnlyList<BoardPerson> People,
    SumpHistory History,
    IReadOnlyList<LimitStretch> Stretches)
{
    /// <summary>What may be behind what is off, by the pattern table; null of an empty sump.</summary>
    public PatternCauses? Causes { get; init; }

    /// <summary>Where its fluid goes; null of an empty sump.</summary>
    public SumpLosses? Losses { get; init; }

    /// <summary>Until when people keep away after a dose; null when nobody has to.</summary>
    public KeepAway? KeepAway { get; init; }

    /// <summary>It smelled of hydrogen sulphide when somebody last smelled at it.</summary>
    public bool WarnsOfGas { get; init; }

    /// <summary>Taken with the readings since the fill, newest first.</summary>
    public IReadOnlyList<ListedPhoto> Photos { get; init; } = [];

    // Room at the right end of the charts for the word at now.
    private const double AxisAir = 0.03;

    /// <summary>The charts since the fill, in the words and units of one person.</summary>
    public HistorySheetTrends Trends(Sentences say) =>
        new TrendBuilder(Setup, Setup.FindSump(Place.SumpId) ?? throw new InvalidOperationException($"The set-up has no sump {Place.Tag}."), say)
            .Build(History, Stretches, FromUtc, AtUtc + ((AtUtc - FromUtc) * AxisAir), AtUtc);

    public SumpFigure? Figure(string parameter) => Figures.FirstOrDefault(f => f.Parameter == parameter);
}

public sealed record SumpPageMachine(string Tag, string Name, Delivery Delivery, decimal WeeklyHours);

/// <param name="OwnLimits">Number of the sump's own limit set in force now.</param>
/// <param name="FluidLimits">Number of its fluid's.</param>
public sealed record SumpPageCharge(
    int Number, string FluidName, DateTime FilledAtUtc, int AgeDays, string? FillLot, decimal WaterFilledLitres, decimal ConcentrateFilledLitres, decimal WaterAddedLitres, decimal ConcentrateAddedLitres, decimal RemovedLitres, int? OwnLimits, int? FluidLimits);

/// <summary>The latest value of a parameter with what it is judged by.</summary>
/// <param name="Before">The value before it, where there is one.</param>
public sealed record SumpFigure(
    string Parameter, decimal Value, decimal Uncertainty, DateTime TakenAtUtc, Verdict Verdict, Direction Direction, decimal? Before, GaugeLimits? Limits);

public sealed class SumpPageQuery(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    private readonly KeepAwayQuery _keepAway = new();
    private readonly BoardPeopleQuery _people = new();

    /// <summary>Null when there is no sump of this tag.</summary>
    public async Task<SumpPage?> RunAsync(string tag, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        if (setup.FindSump(tag) is not { } sump)
        {
            return null;
        }

        var now = clock.UtcNow;
        var charge = setup.OpenCharge(sump.Id);
        var from = charge?.FilledAtUtc ?? now.AddDays(-HistorySheetQuery.UsualDays);
        var standing = await db.Standings.AsNoTracking().FirstOrDefaultAsync(s => s.SumpId == sump.Id, cancellationToken);
        var facts = charge is null ? null : standing?.Facts;
        var people = await _people.RunAsync(db, cancellationToken);
        var flags = await db.Flags.AsNoTracking().Where(f => f.SumpId == sump.Id && f.EndedAtUtc == null).ToListAsync(cancellationToken);
        var answers = await FlagAnswers.OfAsync(db, flags.Where(f => f.EscalatedAtUtc is not null), cancellationToken);
        var tasks = await db.CareTasks.AsNoTracking().Where(t => t.SumpId == sump.Id && t.State == TaskState.Open).ToListAsync(cancellationToken);
        var history = await new SumpHistoryReader(db, setup, sump.Id, from, now.AddDays(1)).ReadAsync(cancellationToken);
        var volume = charge is null ? null : SumpVolume.Of(setup, sump, charge, standing, now);
        var ofCharge = charge is null ? ChargeHistory.Empty : ChargePatterns.HistoryOf(history, charge.Id);
        return new(
            now,
            from,
            setup,
            SumpPlace.Of(setup, sump, volume?.Litres),
            [.. setup.MachinesOf(sump).Select(m => new SumpPageMachine(m.Tag, m.Name, m.Delivery, m.WeeklyHours))],
            SumpStanding.Of(facts, now),
            charge is null ? null : ChargeOf(setup, sump, charge, history, now),
            charge is null || facts is null ? [] : Figures(setup, sump, charge, facts, history, now),
            volume,
            standing?.NextTestDueAtUtc,
            new OpenWork(OpenWorkQuery.Flags(flags, standing?.Facts, answers.LastOn(sump.Id)), OpenWorkQuery.Tasks(tasks, people.ById, setup, sump.Id, now)),
            people.WhoCanWork,
            history,
            charge is null ? [] : LimitStretch.Over(setup, sump.Id, [charge], from, now.AddYears(1)))
        {
            Causes = charge is null ? null : new ChargePatterns(setup, sump, charge).Seek(ofCharge, facts, []),
            Losses = charge is null ? null : SumpLosses.Of(setup, sump, charge, ofCharge, facts, now),
            KeepAway = await _keepAway.OfSumpAsync(db, sump.Id, now, cancellationToken),
            WarnsOfGas = CautionAdvice.WarnsOfGas(standing?.Facts),
            Photos = await PhotosQuery.OfSumpAsync(db, sump.Id, from, cancellationToken),
        };
    }

    private static SumpPageCharge ChargeOf(ShopSetup setup, Sump sump, Charge charge, SumpHistory history, DateTime now)
    {
        var movements = history.Movements.Where(m => m.ChargeId == charge.Id).ToList();
        var fill = movements.Where(m => m.Kind == MovementKind.Fill).ToList();
        var added = movements.Where(m => m.Kind == MovementKind.Addition).ToList();
        var limits = setup.LimitsAt(sump.Id, charge.FluidId, now);
        return new(
            charge.Number,
            setup.Fluid(charge.FluidId).Name,
            charge.FilledAtUtc,
            setup.Calendar.ShopDayOf(now).DayNumber - setup.Calendar.ShopDayOf(charge.FilledAtUtc).DayNumber,
            HistoryLot.NumbersOf(fill),
            fill.Sum(m => m.WaterLitres),
            fill.Sum(m => m.ConcentrateLitres),
            added.Sum(m => m.WaterLitres),
            added.Sum(m => m.ConcentrateLitres),
            movements.Sum(m => m.RemovedLitres),
            limits.OfSump?.Number,
            limits.OfFluid?.Number);
    }

    private static List<SumpFigure> Figures(ShopSetup setup, Sump sump, Charge charge, StandingFacts facts, SumpHistory history, DateTime now)
    {
        var limits = setup.LimitsAt(sump.Id, charge.FluidId, now).Limits;
        return [.. setup.Parameters.Where(p => facts.Latest.ContainsKey(p.Code)).Select(p =>
        {
            var latest = facts.Latest[p.Code];
            var before = history.Readings
                .Where(r => r.SupersededBy is null && r.TakenAtUtc < latest.TakenAt)
                .SelectMany(r => r.Measurements.Where(m => m.Parameter == p.Code).Take(1))
                .Select(m => (decimal?)m.Value)
                .FirstOrDefault();
            return new SumpFigure(p.Code, latest.Value, latest.Uncertainty, latest.TakenAt, latest.Verdict, latest.Direction, before, GaugeLimits.For(p.Code, limits, facts.FirstFillPh));
        })];
    }
}
