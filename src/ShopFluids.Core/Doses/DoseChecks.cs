using ShopFluids.Calculations.Additives;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Sumps;

namespace ShopFluids.Core.Doses;

/// <summary>Checks everything about a dose: first each field, then all of it against the label.</summary>
public static class DoseChecks
{
    public const decimal LeastAmount = 0.01m;

    /// <summary>A cubic metre or a tonne: a larger number is a slip of the finger. Common practice, no source.</summary>
    public const decimal MostAmount = 1_000_000;

    public const decimal LeastLitres = 0.1m;
    public const decimal LeastDensity = 0.5m;
    public const decimal MostDensity = 3;
    public const decimal LeastLabel = 0.001m;
    public const decimal MostLabelHours = 100_000;

    /// <summary>Six weeks: no label asks for more. Common practice, no source.</summary>
    public const decimal MostReentryHours = 1000;

    internal const double Slack = 1e-9;
    private const double LabelMostPerLitre = 1000;
    private const double Measurable = 0.001;

    /// <summary>The most that a label can say in a measure: a litre or a kilogram of product in a litre.</summary>
    public static decimal MostLabel(DoseMeasure measure) => decimal.Round((decimal)(LabelMostPerLitre / DoseStrength.PerLitre(measure)), 0);

    internal static List<FieldError> Check(NoteDose dose, Sump sump, Charge charge, DateTime nowUtc)
    {
        var errors = new List<FieldError>();
        if (dose.Id == Guid.Empty)
        {
            errors.Add(new(FieldNames.Id, FieldProblem.Missing));
        }

        if (dose.GivenAtUtc > nowUtc + ReadingChecks.AllowedClockSkew)
        {
            errors.Add(new(DoseFields.GivenAt, FieldProblem.InTheFuture));
        }
        else if (dose.GivenAtUtc < charge.FilledAtUtc)
        {
            errors.Add(new(DoseFields.GivenAt, FieldProblem.BeforeTheFill, EarliestUtc: charge.FilledAtUtc));
        }

        TextChecks.Check(errors, DoseFields.Product, dose.Product, Dose.MaximumProductLength);
        TextChecks.Check(errors, DoseFields.Reason, dose.Reason, Dose.MaximumReasonLength);
        CheckChoice(errors, DoseFields.Kind, dose.Kind);
        CheckChoice(errors, DoseFields.Unit, dose.Unit);
        CheckChoice(errors, DoseFields.LabelMeasure, dose.KeptMeasure);
        CheckNumbers(errors, dose, sump);
        return errors;
    }

    /// <summary>Holds a dose that passed the other checks against its label: how much, and how long after the last of the same product.</summary>
    /// <param name="others">The doses of the charge.</param>
    internal static FieldError? CheckLabel(NoteDose dose, DoseReckoning reckoned, IEnumerable<Dose> others)
    {
        var same = others.Where(o => Dose.IsSameProduct(o.Product, dose.Product)).OrderBy(o => o.GivenAtUtc).ToList();

        // What the label said at the last dose holds where nothing is typed. A dose that is entered late may stand before others: the distance counts.
        var hours = dose.LabelHours ?? same.LastOrDefault(o => o.LabelHours is not null)?.LabelHours ?? 0;
        var product = DoseReckoning.Product(dose.Amount, dose.Unit, dose.KeptMeasure, dose.DensityKgPerLitre);
        var most = dose.LabelMost is { } label ? (double)label * DoseStrength.PerLitre(dose.KeptMeasure) : LabelMostPerLitre;

        // By mass all of it is in g instead of mL, and reckoned alike.
        var plan = DosePlan.Make(
            (double)dose.VolumeLitres,
            product,
            new DoseLabel(most, (double)hours),
            [.. same.Select(o => new PastDose((dose.GivenAtUtc - o.GivenAtUtc).Duration().TotalHours, (double)o.Amount))],
            Measurable);
        if (plan.Decision == DoseDecision.TooSoon)
        {
            return new(DoseFields.GivenAt, FieldProblem.TooSoon, Detail: dose.Product, EarliestUtc: same[^1].GivenAtUtc.AddHours((double)hours));
        }

        return dose.LabelMost is null || product <= plan.MostMillilitresNow * (1 + Slack)
            ? null
            : new(DoseFields.Amount, FieldProblem.OutOfRange, dose.Amount, LeastAmount, reckoned.MostAmount, DoseUnits.Of(dose.Unit));
    }

    private static void CheckChoice<T>(List<FieldError> errors, string field, T choice)
        where T : struct, Enum
    {
        if (!Enum.IsDefined(choice))
        {
            errors.Add(new(field, FieldProblem.UnknownChoice));
        }
    }

    private static void CheckNumbers(List<FieldError> errors, NoteDose dose, Sump sump)
    {
        var isBiocidal = DoseKinds.IsBiocidal(dose.Kind);
        CheckRange(errors, DoseFields.Amount, dose.Amount, LeastAmount, MostAmount, DoseUnits.Of(dose.Unit), isNeeded: true);
        CheckRange(errors, DoseFields.Volume, dose.VolumeLitres, LeastLitres, (decimal)sump.Geometry.BrimLitres, "L", isNeeded: true);
        if (Enum.IsDefined(dose.KeptMeasure))
        {
            CheckRange(errors, DoseFields.Density, dose.DensityKgPerLitre, LeastDensity, MostDensity, "kg/L", DoseReckoning.NeedsDensity(dose.Unit, dose.KeptMeasure));
            CheckRange(errors, DoseFields.LabelMost, dose.LabelMost, LeastLabel, MostLabel(dose.KeptMeasure), DoseUnits.Of(dose.KeptMeasure), isBiocidal);
        }

        CheckRange(errors, DoseFields.LabelHours, dose.LabelHours, 0, MostLabelHours, "h", isNeeded: false);
        CheckRange(errors, DoseFields.ReentryHours, dose.ReentryHours, 0, MostReentryHours, "h", isBiocidal);
        if (isBiocidal && !dose.IsSafetyConfirmed)
        {
            errors.Add(new(DoseFields.Safety, FieldProblem.Missing));
        }
    }

    private static void CheckRange(List<FieldError> errors, string field, decimal? value, decimal low, decimal high, string unit, bool isNeeded)
    {
        if (value is null && isNeeded)
        {
            errors.Add(new(field, FieldProblem.Missing));
        }
        else if (value < low || value > high)
        {
            errors.Add(new(field, FieldProblem.OutOfRange, value, low, high, unit));
        }
    }
}
