using ShopFluids.Core.Fluids;
using ShopFluids.Core.Instruments;
using ShopFluids.Core.Sumps;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.InstrumentCheck;
using ShopFluids.Rules.Lot;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Core.ShopFlags;

/// <summary>A lot that holds anything.</summary>
internal sealed record LotOnHand(Guid FluidId, LotFacts Facts);

/// <summary>A fluid that some sump holds: of the others nothing will be wanted.</summary>
/// <param name="PlannedLitres">Concentrate for the refills planned within <see cref="LotRule.HorizonDays"/>.</param>
/// <param name="UsedLitres">Concentrate topped up within the last <see cref="LotRule.UseDays"/>.</param>
internal sealed record WantedFluid(Guid FluidId, decimal PlannedLitres, decimal UsedLitres);

/// <summary>Everything that the rules about lots, stocks and instruments look at: loaded from the database, or told from the record for a moment of the past.</summary>
/// <param name="Known">Flags whose cause has not gone away.</param>
internal sealed record StoresFacts(
    ShopCalendar Calendar,
    IReadOnlyList<KnownFinding> Known,
    IReadOnlyList<LotOnHand> Lots,
    IReadOnlyList<WantedFluid> Wanted,
    IReadOnlyList<InstrumentFacts> Instruments)
{
    /// <summary>What is found against what is known.</summary>
    public FindingChanges Changes(DateTime nowUtc)
    {
        var found = Lots.SelectMany(l => LotRule.Check(l.Facts, Calendar, nowUtc)).ToList();
        var spoilt = found.Select(f => f.SubjectId).ToHashSet();
        var usable = Lots.Where(l => !spoilt.Contains(l.Facts.Id)).ToLookup(l => l.FluidId, l => l.Facts.RemainingLitres);
        foreach (var wanted in Wanted)
        {
            var isKnown = Known.Any(k => k.Rule == LotRule.Code && k.Aspect == LotRule.LowStock && k.SubjectId == wanted.FluidId);
            var stock = new StockFacts(wanted.FluidId, usable[wanted.FluidId].Sum(), wanted.PlannedLitres, wanted.UsedLitres / LotRule.UseDays);
            if (LotRule.Check(stock, isKnown, Calendar, nowUtc) is { } low)
            {
                found.Add(low);
            }
        }

        found.AddRange(Instruments.Select(i => InstrumentCheckRule.Check(i, Calendar, nowUtc)).OfType<ShopFinding>());
        return FindingChanges.Of(found, Known, nowUtc);
    }

    /// <param name="openedAtUtc">When it was first drawn from; null while it is closed, and where its sheet does not say how long it keeps.</param>
    public static LotOnHand Of(FluidLot lot, DateTime? openedAtUtc, int? openedLifeDays, ShopCalendar calendar) => new(
        lot.FluidId,
        new(lot.Id, lot.ExpiresOn, lot.RemainingLitres, lot.IsQuarantined, openedAtUtc is { } at ? calendar.ShopDayOf(at) : null, openedLifeDays));

    public static InstrumentFacts Of(Instrument instrument) => new(instrument.Id, instrument.CheckedOn, instrument.CheckEveryDays ?? InstrumentCheckRule.UsualDays);

    /// <summary>Concentrate that a refill to the full mark takes.</summary>
    public static decimal RefillLitres(Sump sump, Fluid fluid) => (decimal)sump.Geometry.VolumeLitresAt((double)sump.FullMarkMm) * fluid.TargetPercent / 100;
}
