using ShopFluids.Core.Limits;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.OverdueTest;

namespace ShopFluids.Core.Sheets;

/// <summary>The blocks about the sump as it is at printing: head, standing, current charge.</summary>
internal sealed class HistorySheetNow(ShopSetup setup, Sump sump, Sentences say, DateTime nowUtc)
{
    private ShopFormat Format => say.Format;

    /// <summary>The fluid is that of the last charge of the period, so that a sheet about the past names what was in the sump then.</summary>
    public HistorySheetHead Head(HistorySheetFacts facts)
    {
        var machines = setup.MachinesOf(sump);
        var charge = facts.Charges.LastOrDefault(c => c.FilledAtUtc < facts.ToUtc);
        var fluid = charge is null ? null : setup.Fluid(charge.FluidId);
        var water = setup.Water(sump);
        var at = facts.ToUtc < nowUtc ? facts.ToUtc : nowUtc;
        var band = charge is null ? null : setup.LimitsAt(sump.Id, charge.FluidId, at).ValueLimits(ParameterCodes.Concentration);
        return new(
            string.Join(", ", machines.Select(m => m.Name)),
            string.Join(", ", machines.Select(m => m.Tag)),
            NullIfEmpty(string.Join(", ", machines.Select(m => m.Process).Where(p => p.Length > 0).Distinct(StringComparer.Ordinal))),
            fluid?.Name,
            WorkingConcentration(fluid, band),
            fluid?.Biocide,
            null,
            Format.Volume(sump.Geometry.VolumeLitresAt((double)sump.FullMarkMm)),
            Milligrams(water?.NitrateMgPerLitre),
            Milligrams(water?.NitriteMgPerLitre),
            water?.HardnessMgPerLitre is { } hardness ? Format.Hardness((double)hardness) : null,
            fluid is null ? null : Format.Number(fluid.RefractometerFactor, 2),
            fluid?.TitrationFactor is { } factor ? Format.Number(factor, 2) : null,
            null);
    }

    public HistorySheetStanding Standing(Standing? standing)
    {
        var rows = new List<HistorySheetStandingRow>();
        if (standing?.Facts is { } facts && setup.OpenCharge(sump.Id) is { } charge)
        {
            rows.AddRange(setup.Parameters.Where(p => facts.Latest.ContainsKey(p.Code)).Select(p => Latest(p, facts.Latest[p.Code], standing.LastReadAtUtc)));
            if (SumpVolume.Of(setup, sump, charge, standing, nowUtc) is { } volume)
            {
                rows.Add(new(
                    Texts.Sheet_Volume,
                    Format.Volume(volume.Litres),
                    Format.Say(volume.IsReckoned ? Texts.Sheet_OfFullReckoned : Texts.Sheet_OfFull, Format.Volume(volume.FullLitres)),
                    new(volume.Verdict, volume.Direction, volume.Words(Format))));
            }

            if (facts.OpenTasks.Where(t => OverdueTestRule.IsLate(t, nowUtc)).MinBy(t => t.DueAt) is { } late)
            {
                rows.Add(new(
                    Sentences.Task(TaskKind.Test),
                    "",
                    Format.Say(Texts.Sheet_WasDue, Format.ShortDay(setup.Calendar.ShopDayOf(late.DueAt.AddTicks(-1)))),
                    new(Verdict.NotMeasured, Direction.None, Format.Late(late.DueAt, nowUtc) ?? Texts.Verdict_Overdue, IsLate: true)));
            }
        }

        return new(Format.DayAndTime(nowUtc), rows);
    }

    public HistorySheetCharge? Charge(HistorySheetFacts facts)
    {
        if (facts.Charges.FirstOrDefault(c => c.DrainedAtUtc is null) is not { } charge)
        {
            return null;
        }

        var days = setup.Calendar.ShopDayOf(nowUtc).DayNumber - setup.Calendar.ShopDayOf(charge.FilledAtUtc).DayNumber;
        var fill = facts.ChargeMovements.Where(m => m.Kind == MovementKind.Fill).ToList();
        var added = facts.ChargeMovements.Where(m => m.Kind == MovementKind.Addition).ToList();
        return new(
            Format.Count(charge.Number),
            Format.LongDay(charge.FilledAtUtc),
            days == 1 ? Texts.Sheet_OneDay : Format.Say(Texts.Sheet_Days, Format.Count(days)),
            HistoryLot.NumbersOf(fill),
            facts.Standing?.VolumeLitres is { } volume ? Format.Volume(volume) : null,
            fill.Count == 0 ? null : Litres(fill.Sum(m => m.WaterLitres)),
            fill.Count == 0 ? null : Litres(fill.Sum(m => m.ConcentrateLitres)),
            Litres(added.Sum(m => m.WaterLitres)),
            Litres(added.Sum(m => m.ConcentrateLitres)),
            Litres(facts.ChargeMovements.Sum(m => m.RemovedLitres)),
            null,
            null,
            null);
    }

    /// <param name="readAtUtc">The latest visit; a value of an earlier one names its day, because it is no standing of today.</param>
    private HistorySheetStandingRow Latest(Parameter parameter, LatestValue latest, DateTime? readAtUtc)
    {
        var giveOrTake = latest.Uncertainty > 0 && say.Words(parameter.Code).Count == 0 ? Format.Say(Texts.Sheet_GiveOrTake, say.Cell(parameter, (double)latest.Uncertainty)) : null;
        var read = latest.TakenAt == readAtUtc ? null : Format.ShortDay(latest.TakenAt);
        return new(
            say.Parameter(parameter.Code),
            say.Value(parameter.Code, latest.Value),
            string.Join(", ", new[] { giveOrTake, read }.OfType<string>()),
            say.Worded(parameter.Code, latest.Verdict, latest.Direction));
    }

    private string? WorkingConcentration(Fluids.Fluid? fluid, ParameterLimits? band)
    {
        string? Percent(decimal? value) => value is { } percent ? Format.Number(percent, 1) : null;
        var range = Format.Range(Percent(band?.TargetLow), Percent(band?.TargetHigh));
        return range is not null ? $"{range} %" : fluid is null ? null : Format.Percent((double)fluid.TargetPercent);
    }

    private string? Milligrams(decimal? value) => value is { } milligrams ? Format.Quantity((double)milligrams, "mg/L", 1) : null;

    private string Litres(decimal litres) => Format.Volume((double)litres);

    private static string? NullIfEmpty(string text) => text.Length == 0 ? null : text;
}
