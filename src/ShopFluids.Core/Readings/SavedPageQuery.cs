using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Finds;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Patterns;
using ShopFluids.Core.Photos;
using ShopFluids.Core.Rounds;
using ShopFluids.Core.Setup;
using ShopFluids.Core.ShopFlags;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;
using ShopFluids.Rules;
using ShopFluids.Rules.Advice;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Patterns;
using ShopFluids.Rules.Registry;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Core.Readings;

/// <summary>What a stored reading led to, and what has been done about it since.</summary>
/// <param name="Reasons">Flags on what was measured: raised by this reading, or open before and still open; the worst first.</param>
/// <param name="IsCurrent">It is the latest reading of the open charge, so its advice may be followed.</param>
/// <param name="LevelLitres">The volume at the level that was read; null where none was.</param>
/// <param name="Target">The limits of the concentration that the recipe aims into.</param>
/// <param name="Lots">Lots of the fluid that hold anything, first to expire first.</param>
/// <param name="NextTestDueAtUtc">As it stands now while the reading is current, for what was done since may ask for a test; else as it was then.</param>
public sealed record SavedPage(
    SumpPlace Place,
    string FluidName,
    DateTime TakenAtUtc,
    DateTime NowUtc,
    string Note,
    ReadingOutcome Outcome,
    IReadOnlyList<FlagOutcome> Reasons,
    bool IsCurrent,
    double? LevelLitres,
    double FullMarkLitres,
    GaugeLimits? Target,
    string? WaterName,
    string? SafetySheetPlace,
    IReadOnlyList<LotChoice> Lots,
    IReadOnlyList<SavedAddition> Additions,
    IReadOnlyList<SavedTask> Tasks,
    DateTime? NextTestDueAtUtc)
{
    /// <summary>What may be behind it by the pattern table; null where the reading is no longer the latest or found nothing.</summary>
    public PatternCauses? Causes { get; init; }

    /// <summary>What set the day of the next test, where its interval follows the risk and the reading is the latest.</summary>
    public TestReason? NextTestWhy { get; init; }

    /// <summary>The reading that took its place; null while it counts.</summary>
    public SavedCorrection? SupersededBy { get; init; }

    /// <summary>Null where none was taken.</summary>
    public ListedPhoto? Photo { get; init; }

    /// <summary>Until when people keep away after a dose; null when nobody has to.</summary>
    public KeepAway? KeepAway { get; init; }

    /// <summary>A flag that this reading raised on what its recipe is worked out from is open still and asks for a second look: nobody pours for it before.</summary>
    public bool IsDoubtful { get; init; }

    /// <summary>
    /// Besides the additions noted with this reading something was poured in or taken out since: where the sump stands cannot be reckoned from them alone.
    /// Asked only where additions were noted.
    /// </summary>
    public bool IsMovedOtherwise { get; init; }

    /// <summary>Tags of the instruments that it was read with after their check had lapsed.</summary>
    public IReadOnlyList<string> LapsedInstruments { get; init; } = [];
}

/// <summary>The reading that corrects another, and why.</summary>
public sealed record SavedCorrection(Guid ReadingId, DateTime AtUtc, string By, string Reason);

/// <param name="RemovedLitres">Taken out before.</param>
public sealed record SavedAddition(DateTime AddedAtUtc, decimal WaterLitres, decimal ConcentrateLitres, decimal RemovedLitres, string? LotNumber);

/// <param name="OnlyASupervisorSkips">The fluid is beyond an action limit that asks for this draining.</param>
public sealed record SavedTask(Guid Id, TaskKind Kind, string Cause, DateTime DueAtUtc, TaskState State, DateTime? EndedAtUtc, string? EndReason, bool OnlyASupervisorSkips, WorkFind? Found = null)
{
    /// <summary>It is not due yet, but so soon that it is done in the same visit.</summary>
    public bool GoesAlong { get; init; }
}

public sealed class SavedPageQuery(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    private readonly ChargeHistoryQuery _history = new();
    private readonly KeepAwayQuery _keepAway = new();

    public async Task<Result<SavedPage>> RunAsync(string sumpTag, Guid readingId, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        if (setup.FindSump(sumpTag) is not { } sump)
        {
            return new SumpNotFound(sumpTag);
        }

        var reading = await db.Readings.AsNoTracking().FirstOrDefaultAsync(r => r.Id == readingId && r.SumpId == sump.Id, cancellationToken);
        if (reading?.Outcome is not { } outcome)
        {
            return new ReadingNotFound(readingId);
        }

        var now = clock.UtcNow;
        var charge = await db.Charges.AsNoTracking().SingleAsync(c => c.Id == reading.ChargeId, cancellationToken);
        var fluid = setup.Fluid(charge.FluidId);
        var standing = await db.Standings.AsNoTracking().FirstOrDefaultAsync(s => s.SumpId == sump.Id, cancellationToken);
        var isCurrent = await IsCurrentAsync(db, reading, charge, cancellationToken);
        var level = outcome.Measurements.FirstOrDefault(m => m.Parameter == ParameterCodes.Level);
        var additions = await AdditionsAsync(db, reading.Id, cancellationToken);
        return new SavedPage(
            SumpPlace.Of(setup, sump, standing?.VolumeLitres),
            fluid.Name,
            reading.TakenAtUtc,
            now,
            reading.Note,
            outcome,
            Reasons(outcome, standing),
            isCurrent,
            level is null ? null : StandingRebuild.VolumeAt(sump, level.Value),
            sump.Geometry.VolumeLitresAt((double)sump.FullMarkMm),
            GaugeLimits.For(ParameterCodes.Concentration, setup.LimitsAt(sump.Id, charge.FluidId, reading.TakenAtUtc)?.Limits ?? [], null),
            setup.Water(sump)?.Name,
            fluid.SafetySheetPlace ?? setup.Site?.SafetySheetPlace,
            await LotChoices.OfFluidAsync(db, charge.FluidId, setup.Calendar.ShopDayOf(now), cancellationToken),
            additions,
            await TasksAsync(db, setup, reading, standing?.Facts, now, cancellationToken),
            isCurrent ? standing?.NextTestDueAtUtc : outcome.NextTestDueAtUtc)
        {
            Causes = isCurrent ? await CausesAsync(db, new(setup, sump, charge), reading, outcome, standing?.Facts, cancellationToken) : null,
            NextTestWhy = isCurrent ? await WhyAsync(db, sump.Id, cancellationToken) : null,
            SupersededBy = await SupersededByAsync(db, reading.Id, cancellationToken),
            Photo = await PhotosQuery.OfReadingAsync(db, reading.Id, cancellationToken),
            KeepAway = await _keepAway.OfSumpAsync(db, sump.Id, now, cancellationToken),
            IsDoubtful = isCurrent && IsDoubtful(outcome, standing?.Facts),
            IsMovedOtherwise = isCurrent && additions.Count > 0 && await IsMovedOtherwiseAsync(db, reading, cancellationToken),
            LapsedInstruments = await LapsedAsync(db, setup, reading, cancellationToken),
        };
    }

    private static bool IsDoubtful(ReadingOutcome outcome, StandingFacts? facts) => outcome.Raised.Any(raised =>
        raised.Parameter is ParameterCodes.Concentration or ParameterCodes.Level
        && CorrectiveWork.AsksForASecondLook(CorrectiveWork.CauseOf(raised.Rule, raised.Parameter))
        && facts?.OpenFlags.Any(open => open.Id == raised.Id) == true);

    private static Task<SavedCorrection?> SupersededByAsync(ShopFluidsDbContext db, Guid readingId, CancellationToken cancellationToken) =>
        db.Readings.AsNoTracking().Where(r => r.SupersedesId == readingId)
            .Select(r => new SavedCorrection(r.Id, r.StoredAtUtc, db.Users.Where(p => p.Id == r.PersonId).Select(p => p.DisplayName).FirstOrDefault() ?? "", r.CorrectionReason ?? ""))
            .FirstOrDefaultAsync(cancellationToken);

    private static Task<TestReason?> WhyAsync(ShopFluidsDbContext db, Guid sumpId, CancellationToken cancellationToken) =>
        db.CareTasks.AsNoTracking().Where(t => t.SumpId == sumpId && t.State == TaskState.Open && t.Kind == TaskKind.Test).OrderBy(t => t.DueAtUtc).Select(t => t.Why).FirstOrDefaultAsync(cancellationToken);

    private static async Task<List<string>> LapsedAsync(ShopFluidsDbContext db, ShopSetup setup, Reading reading, CancellationToken cancellationToken)
    {
        var used = await db.Measurements.AsNoTracking().Where(m => m.ReadingId == reading.Id && m.InstrumentId != null).Select(m => m.InstrumentId ?? Guid.Empty).Distinct().ToListAsync(cancellationToken);
        var lapsed = await LapsedInstruments.AtAsync(db, used, reading.TakenAtUtc, cancellationToken);
        return [.. setup.Instruments.Where(i => lapsed.Contains(i.Id)).Select(i => i.Tag)];
    }

    // The charge is looked at only where something is off, so that the page stays fast where all is well.
    private async Task<PatternCauses?> CausesAsync(
        ShopFluidsDbContext db, ChargePatterns patterns, Reading reading, ReadingOutcome outcome, StandingFacts? standing, CancellationToken cancellationToken)
    {
        if (outcome.Verdict < Verdict.Warning && standing is not { OpenFlags.Count: > 0 })
        {
            return null;
        }

        var before = await _history.RunAsync(db, patterns.Charge, reading.TakenAtUtc, cancellationToken, reading.Id);
        var now = new ReadingFacts(reading.Id, reading.TakenAtUtc, [.. outcome.Measurements.Select(m => new MeasurementFacts(m.Parameter, m.Method, m.Value, m.Uncertainty))]);
        return patterns.Seek(before with { Readings = [.. before.Readings, now] }, standing, []);
    }

    private static List<FlagOutcome> Reasons(ReadingOutcome outcome, Standing? standing)
    {
        var measured = outcome.Measurements.Select(m => m.Parameter).ToHashSet(StringComparer.Ordinal);
        var open = (standing?.Facts?.OpenFlags ?? []).Where(f => measured.Contains(f.Parameter) || (f.Parameter.Length == 0 && RuleRegistry.Find(f.Rule) is not null)).Select(f => new FlagOutcome(f.Id, f.Rule, f.Parameter, f.Severity, f.Direction, f.Numbers));
        return [.. outcome.Raised.Concat(open).DistinctBy(f => f.Id).OrderByDescending(f => f.Severity)];
    }

    /// <summary>Whether what the reading advises may still be done.</summary>
    internal static async Task<bool> IsCurrentAsync(ShopFluidsDbContext db, Reading reading, Charge charge, CancellationToken cancellationToken) =>
        charge.DrainedAtUtc is null
        && !await db.Readings.AnyAsync(r => r.ChargeId == reading.ChargeId && (r.TakenAtUtc > reading.TakenAtUtc || r.SupersedesId == reading.Id), cancellationToken);

    // What is taken out before an addition bears its id.
    private static async Task<bool> IsMovedOtherwiseAsync(ShopFluidsDbContext db, Reading reading, CancellationToken cancellationToken) =>
        await db.Additions.AnyAsync(a => a.ChargeId == reading.ChargeId && a.AddedAtUtc >= reading.TakenAtUtc && a.ReadingId != reading.Id, cancellationToken)
        || await db.Removals.AnyAsync(r => r.ChargeId == reading.ChargeId && r.RemovedAtUtc >= reading.TakenAtUtc && !db.Additions.Any(a => a.Id == r.Id && a.ReadingId == reading.Id), cancellationToken);

    private static async Task<List<SavedAddition>> AdditionsAsync(ShopFluidsDbContext db, Guid readingId, CancellationToken cancellationToken) =>
        await db.Additions.AsNoTracking()
            .Where(a => a.ReadingId == readingId)
            .OrderBy(a => a.AddedAtUtc)
            .Select(a => new SavedAddition(
                a.AddedAtUtc,
                a.WaterLitres,
                a.ConcentrateLitres,
                db.Removals.Where(r => r.Id == a.Id).Select(r => r.Litres).FirstOrDefault(),
                db.FluidLots.Where(l => l.Id == a.LotId).Select(l => l.Number).FirstOrDefault()))
            .ToListAsync(cancellationToken);

    // Work to do now: made by this reading, due in this shop day, or so soon that it goes along, for somebody is there. A test is done by
    // reading, an adjustment by adding: neither is ticked.
    private static async Task<List<SavedTask>> TasksAsync(ShopFluidsDbContext db, ShopSetup setup, Reading reading, StandingFacts? facts, DateTime now, CancellationToken cancellationToken)
    {
        var today = setup.Calendar.ShopDayOf(now);
        var dayEnd = setup.Calendar.EndOf(today);
        var open = facts?.OpenTasks ?? [];
        var visits = SumpVisits.Of(setup, reading.SumpId, open, now);
        var along = setup.Calendar.ShopDayOf(reading.TakenAtUtc) == today ? open.Where(t => t.DueAt > dayEnd && visits.CanBeDoneOn(t.Id, today)).Select(t => t.Id).ToList() : [];
        var tasks = await db.CareTasks.AsNoTracking()
            .Where(t => t.SumpId == reading.SumpId && t.Kind != TaskKind.Test && t.Kind != TaskKind.Adjust && t.Kind != TaskKind.ReadSlide
                && ((t.State == TaskState.Open && (t.ReadingId == reading.Id || t.DueAtUtc <= dayEnd || along.Contains(t.Id)))
                    || ((t.State == TaskState.Done || t.State == TaskState.Skipped) && t.EndedAtUtc >= reading.StoredAtUtc)))
            .OrderBy(t => t.DueAtUtc).ThenBy(t => t.Kind).ThenBy(t => t.Id)
            .ToListAsync(cancellationToken);

        // The same work by the plan and because of a finding is one line: the one with the finding, which says more,
        // and before all the one that says what was found.
        // As on the board, late is what was to be done first.
        return [.. tasks.OrderBy(t => t.Found is null).ThenBy(t => SameWork.RankOf(t.Kind, t.Cause))
            .GroupBy(t => (t.State, t.EndedAtUtc, t.EndedAtUtc is null || !CorrectiveWork.OneIsEnough(t.Kind) ? SameWork.KeyOf(t.Id, t.Kind, visits) : t.Kind))
            .Select(same => (Task: same.First(), DueAtUtc: same.Min(t => t.DueAtUtc)))
            .OrderBy(t => t.DueAtUtc).ThenBy(t => t.Task.Kind).ThenBy(t => t.Task.Id)
            .Select(t => SavedTaskOf(t.Task, t.DueAtUtc, facts?.OpenFlags ?? []) with { GoesAlong = along.Contains(t.Task.Id) && t.DueAtUtc > dayEnd && t.Task.ReadingId != reading.Id })];
    }

    private static SavedTask SavedTaskOf(CareTask t, DateTime dueAtUtc, IReadOnlyList<OpenFlag> flags) =>
        new(t.Id, t.Kind, t.Cause, dueAtUtc, t.State, t.EndedAtUtc, t.EndReason, CorrectiveWork.OnlyASupervisorSkips(t.Kind, flags), t.Found);
}
