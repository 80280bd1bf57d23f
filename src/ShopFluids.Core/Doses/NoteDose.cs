using Microsoft.EntityFrameworkCore;
using ShopFluids.Calculations.Additives;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Live;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Doses;

/// <summary>
/// Notes that an additive was put into a sump, as its label allows, or as a supervisor says that it was given all the same. Dosing that the plan
/// asked for is done by it.
/// </summary>
/// <param name="Id">Made by the sender; sending it twice notes once.</param>
/// <param name="Product">Its name as printed on its label. One that differs from a known one only by its spelling means that.</param>
/// <param name="Amount">0.01 to 1 000 000, in the unit.</param>
/// <param name="VolumeLitres">The fluid for which it was reckoned, 0.1 L up to the brim and to a tenth more than the sump holds by the record.</param>
public sealed record NoteDose(Guid Id, string SumpTag, DateTime GivenAtUtc, string Product, DoseKind Kind, decimal Amount, DoseUnit Unit, decimal VolumeLitres, string Reason)
{
    private const int StoredDecimals = 6;

    /// <summary>The label's own; null for the usual one of the unit.</summary>
    public DoseMeasure? Measure { get; init; }

    /// <summary>0.5 to 3 kg/L; needed where the amount is by volume and the label by mass, or the other way round.</summary>
    public decimal? DensityKgPerLitre { get; init; }

    /// <summary>Most in one dose by the label, in the measure; needed of what kills.</summary>
    public decimal? LabelMost { get; init; }

    /// <summary>
    /// Least time between two doses by the label, h; needed of what kills, 0 where the label says nothing. Of others null holds to what was said
    /// at the last dose of the product in the charge.
    /// </summary>
    public decimal? LabelHours { get; init; }

    /// <summary>How long people keep away by the label, h; needed of what kills.</summary>
    public decimal? ReentryHours { get; init; }

    /// <summary>Whoever gave it has label and safety data sheet at hand and is trained for it; needed of what kills.</summary>
    public bool IsSafetyConfirmed { get; init; }

    /// <summary>A supervisor's reason to note that it was given against what its label allows; where it is as that allows, not kept.</summary>
    public string? AgainstLabelReason { get; init; }

    internal DoseMeasure KeptMeasure => Measure ?? DoseUnits.UsualOf(Unit);

    /// <summary>As it is stored: trimmed, to the millisecond and to the decimals of the database; a density only where it counts.</summary>
    internal NoteDose Kept() => this with
    {
        GivenAtUtc = ShopClock.ToMillisecond(GivenAtUtc),
        Product = ProductNames.Kept(Product),
        Amount = Stored(Amount),
        VolumeLitres = Stored(VolumeLitres),
        Reason = Reason.Trim(),
        AgainstLabelReason = string.IsNullOrWhiteSpace(AgainstLabelReason) ? null : AgainstLabelReason.Trim(),
        DensityKgPerLitre = DensityKgPerLitre is { } density && DoseReckoning.NeedsDensity(Unit, KeptMeasure) ? Stored(density) : null,
        LabelMost = LabelMost is { } most ? Stored(most) : null,
        LabelHours = LabelHours is { } hours ? Stored(hours) : null,
        ReentryHours = ReentryHours is { } reentry ? Stored(reentry) : null,
    };

    private static decimal Stored(decimal value) => decimal.Round(value, StoredDecimals, MidpointRounding.AwayFromZero);
}

/// <param name="Reached">What the dose comes to, in the measure.</param>
/// <param name="ReentryUntilUtc">When people may come back; null where the label says nothing.</param>
/// <param name="IsNew">False when it was noted before.</param>
public sealed record NotedDose(Guid Id, decimal Reached, DoseMeasure Measure, DateTime? ReentryUntilUtc, bool IsNew)
{
    internal static NotedDose Of(Dose dose, bool isNew) => new(dose.Id, dose.Reached, dose.Measure, dose.ReentryUntilUtc, isNew);
}

public sealed class NoteDoseHandler(ShopDatabase database, SetupCache setups, ShopClock clock, ShopNews news)
{
    public async Task<Result<NotedDose>> HandleAsync(NoteDose command, Actor actor, bool isSupervisor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        ArgumentNullException.ThrowIfNull(actor);
        command = command.Kept();
        await using var write = await database.WriteAsync(cancellationToken);
        var db = write.Database;
        var setup = await setups.ForAsync(write, cancellationToken);
        if (setup.FindSump(command.SumpTag) is not { } sump)
        {
            return new SumpNotFound(command.SumpTag);
        }

        // Before anything else: what was stored once stays stored, whatever has happened to the sump since.
        if (await db.Doses.AsNoTracking().FirstOrDefaultAsync(d => d.Id == command.Id, cancellationToken) is { } known)
        {
            return known.Holds(command, sump.Id) ? NotedDose.Of(known, isNew: false) : new OtherContentForId(command.Id);
        }

        if (SumpWithCharge.Find(setup, sump.Tag).IsRefused(out var refusal, out var found))
        {
            return refusal;
        }

        var charge = found.Charge;
        var now = clock.UtcNow;
        var errors = DoseChecks.Check(command, sump, charge, now);
        var standing = await db.Standings.AsNoTracking().SingleAsync(s => s.SumpId == sump.Id, cancellationToken);
        if (errors.Count == 0 && await PastVolume.KnownAtAsync(db, sump, charge.Id, standing, command.GivenAtUtc, cancellationToken) is { } held)
        {
            DoseChecks.CheckVolume(errors, command.VolumeLitres, (decimal)held);
        }

        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        command = command with { Product = ProductNames.Known(command.Product, await DosesQuery.ProductsAsync(db, cancellationToken)) };
        var reckoned = DoseReckoning.Of(command.Amount, command.Unit, command.VolumeLitres, command.KeptMeasure, command.DensityKgPerLitre, command.LabelMost);
        var others = await StandingDoses.Of(db).AsNoTracking().Where(d => d.ChargeId == charge.Id).ToListAsync(cancellationToken);
        var againstLabelReason = isSupervisor ? command.AgainstLabelReason : null;
        var faults = DoseChecks.CheckLabel(command, reckoned, others);
        if (faults.Count > 0 && againstLabelReason is null)
        {
            return new FieldErrors(faults);
        }

        var dose = new Dose(command, sump.Id, charge.Id, reckoned.Reached, faults.Count == 0 ? null : againstLabelReason, now, actor.PersonId);
        db.Add(dose);
        await DoseWork.EndAsync(write, setup, clock, sump, dose, actor, cancellationToken);
        await StandingKeeper.RefreshAsync(write, sump, cancellationToken);
        await write.CommitAsync(new Act(ActCodes.DoseNoted, actor, now, sump.Tag), cancellationToken);
        news.Publish(sump.Id);
        return NotedDose.Of(dose, isNew: true);
    }
}
