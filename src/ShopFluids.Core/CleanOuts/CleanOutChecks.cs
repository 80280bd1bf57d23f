using ShopFluids.Core.Care.Finds;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Sumps;

namespace ShopFluids.Core.CleanOuts;

/// <summary>Checks what was noted at a step; every fault at once, each at its field. The lots of a refill are looked up elsewhere.</summary>
public static class CleanOutChecks
{
    public const int MaximumTextLength = 500;
    public const decimal MaximumLitres = AmountChecks.MaximumLitres;
    public const decimal MaximumPercent = 20;
    public const decimal MaximumHours = 1000;
    public const int MaximumRinses = 20;

    // Of one step no more leaves a sump than it holds, and half as much again for what stands in pipes and machine. Common practice, no source.
    private const double MostDrained = 1.5;

    // Steps are not noted to the minute.
    private const decimal SlackHours = 0.25m;
    private const int MinutesAnHour = 60;

    /// <summary>
    /// Asks why, where the cleaner cannot have gone round for as long as was planned: it went in after the step before was noted, and for no longer than
    /// was typed. Who notes it afterwards says when it was.
    /// </summary>
    /// <param name="steps">What was noted so far.</param>
    /// <param name="notedAtUtc">When the cleaner was first noted.</param>
    internal static FieldError? Circulation(CleanOutNote note, IReadOnlyList<CleanOutStep> steps, DateTime notedAtUtc)
    {
        var planned = steps.FirstOrDefault(s => s.Kind == CleanOutStepKind.Plan)?.Noted.Choice?.CirculationHours ?? 0;
        if (note is not { IsLeftOut: false, Hours: { } hours, ShortReason: null } || steps.FirstOrDefault(s => s.Kind == CleanOutStepKind.Cleaner - 1) is not { } before)
        {
            return null;
        }

        var sinceThen = decimal.Truncate((decimal)(notedAtUtc - before.DoneAtUtc).TotalMinutes) / MinutesAnHour;
        var atMost = decimal.Max(0, decimal.Min(hours, sinceThen));
        return atMost < planned - SlackHours ? new(CleanOutFields.ShortReason, FieldProblem.CirculatedTooShort, atMost, planned, Unit: "h") : null;
    }

    public static IReadOnlyList<FieldError> Check(CleanOutStepKind kind, CleanOutNote note, Sump sump)
    {
        ArgumentNullException.ThrowIfNull(note);
        ArgumentNullException.ThrowIfNull(sump);
        var errors = new List<FieldError>();
        Check(errors, kind, note, sump);
        return errors;
    }

    private static void Check(List<FieldError> errors, CleanOutStepKind kind, CleanOutNote note, Sump sump)
    {
        if (note.IsLeftOut)
        {
            TextChecks.Check(errors, CleanOutFields.Reason, note.Text, MaximumTextLength);
            return;
        }

        foreach (var missing in CleanOutConfirmations.Of(kind).Except(note.Confirmed ?? [], StringComparer.Ordinal))
        {
            errors.Add(new(missing, FieldProblem.Missing));
        }

        var (textField, isRequired) = kind switch
        {
            CleanOutStepKind.Carrier => (CleanOutFields.Carrier, true),
            CleanOutStepKind.Inspect => (CleanOutFields.Seen, true),
            _ => (CleanOutFields.Note, false),
        };
        TextChecks.Check(errors, textField, note.Text, MaximumTextLength, isRequired);
        switch (kind)
        {
            case CleanOutStepKind.Plan:
                CheckChoice(errors, note.Choice, sump);
                break;
            case CleanOutStepKind.Cleaner:
                CheckAmount(errors, CleanOutFields.CleanerLitres, note.CleanerLitres, AmountChecks.MaximumLitres, "L");
                CheckAmount(errors, CleanOutFields.Hours, note.Hours, MaximumHours, "h");
                TextChecks.Check(errors, CleanOutFields.ShortReason, note.ShortReason ?? "", MaximumTextLength, isRequired: false);
                break;
            case CleanOutStepKind.Carrier when note.HalogensMgPerKg is { } halogens:
                Range(errors, CleanOutFields.Halogens, halogens, 0, HalogenPresumption.MostMgPerKg, "mg/kg");
                break;
            case CleanOutStepKind.Drain or CleanOutStepKind.Wipe or CleanOutStepKind.Rinse:
                CheckWaste(errors, note.Waste ?? [], isRequired: kind != CleanOutStepKind.Wipe, Floor(MostDrained * sump.Geometry.BrimLitres));
                var mostSludge = FindQuestion.Sludge.MostIn(sump);
                if (note.SludgeMm < 0 || note.SludgeMm > mostSludge)
                {
                    errors.Add(new(CleanOutFields.SludgeMm, FieldProblem.OutOfRange, note.SludgeMm, 0, mostSludge, "mm"));
                }

                break;
            case CleanOutStepKind.Refill:
                CheckRefill(errors, note, sump);
                break;
        }
    }

    private static void CheckChoice(List<FieldError> errors, CleanOutChoice? choice, Sump sump)
    {
        if (choice is null)
        {
            errors.Add(new(CleanOutFields.Content, FieldProblem.Missing));
            return;
        }

        var brim = Floor(sump.Geometry.BrimLitres);
        Range(errors, CleanOutFields.Content, choice.ContentLitres, 1, brim, "L");
        Range(errors, CleanOutFields.Heel, choice.HeelLitres, 0, Floor(CleanOutNumbers.MostHeelLitres((double)choice.ContentLitres, sump)), "L");
        Range(errors, CleanOutFields.CleanerPercent, choice.CleanerPercent, 0, MaximumPercent, "%");
        Range(errors, CleanOutFields.CirculationHours, choice.CirculationHours, 0, MaximumHours, "h");
        Range(errors, CleanOutFields.Rinses, choice.Rinses, 0, MaximumRinses, null);
        Range(errors, CleanOutFields.RinseLitres, choice.RinseLitres, choice.Rinses == 0 ? 0 : 1, decimal.Max(0, brim - choice.HeelLitres), "L");
    }

    private static void CheckWaste(List<FieldError> errors, IReadOnlyList<WasteAmount> waste, bool isRequired, decimal most)
    {
        if (isRequired && !waste.Any(w => w.Litres > 0))
        {
            errors.Add(new(CleanOutFields.WasteLitres(0), FieldProblem.Missing));
        }

        for (var row = 0; row < waste.Count; row++)
        {
            AmountChecks.Check(errors, CleanOutFields.WasteLitres(row), waste[row].Litres);
            TextChecks.Check(errors, CleanOutFields.WasteCode(row), waste[row].Code, WasteCodes.MaximumLength, isRequired: waste[row].Litres != 0);
        }

        if (errors.Count == 0 && waste.Sum(w => w.Litres) is var all && all > most)
        {
            errors.Add(new(CleanOutFields.WasteLitres(0), FieldProblem.OutOfRange, all, 0, most, "L"));
        }
    }

    private static void CheckRefill(List<FieldError> errors, CleanOutNote note, Sump sump)
    {
        var draws = note.Draws ?? [];
        AmountChecks.Check(errors, CleanOutFields.Water, note.WaterLitres ?? 0);
        for (var row = 0; row < draws.Count; row++)
        {
            AmountChecks.Check(errors, CleanOutFields.Concentrate(row), draws[row].Litres);
        }

        var brim = Floor(sump.Geometry.BrimLitres);
        var volume = (note.WaterLitres ?? 0) + note.AllConcentrateLitres();
        if (errors.Count == 0 && (volume <= 0 || volume > brim))
        {
            errors.Add(volume > brim
                ? AmountChecks.OverTheBrim(CleanOutFields.Water, note.WaterLitres ?? 0, CleanOutFields.Concentrate(0), note.AllConcentrateLitres(), brim)
                : new(CleanOutFields.Water, FieldProblem.OutOfRange, volume, 0.1m, brim, "L"));
        }
    }

    private static void CheckAmount(List<FieldError> errors, string field, decimal? value, decimal most, string unit)
    {
        if (value is not { } amount)
        {
            errors.Add(new(field, FieldProblem.Missing));
        }
        else
        {
            Range(errors, field, amount, 0, most, unit);
        }
    }

    private static void Range(List<FieldError> errors, string field, decimal value, decimal low, decimal high, string? unit)
    {
        if (value < low || value > high)
        {
            errors.Add(new(field, FieldProblem.OutOfRange, value, low, high, unit));
        }
    }

    private static decimal Floor(double litres) => decimal.Round((decimal)litres, 1, MidpointRounding.ToZero);
}
