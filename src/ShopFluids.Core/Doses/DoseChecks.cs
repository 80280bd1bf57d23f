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

    // A level is read to about a tenth of the volume; who holds a dose against more fluid than there is gives more than the label allows. Common practice, no source.
    private const decimal MostOverRecord = 1.1m;

    // Where the label says nothing of a waiting time, doses of one day count as one: else it would be got round by giving half of it twice. Common practice, no source.
    private static readonly TimeSpan OneDose = TimeSpan.FromDays(1);

    private const double LabelMostPerLitre = 1000;
    private const double Measurable = 0.001;

    /// <summary>The most that a label can say in a measure: a litre or a kilogram of product in a litre.</summary>
    public static decimal MostLabel(DoseMeasure measure) => decimal.Round((decimal)(LabelMostPerLitre / DoseStrength.PerLitre(measure)), 0);

    /// <summary>Whether a dose was refused for what its label says: a supervisor may note all the same that it was given.</summary>
    public static bool IsAgainstLabel(FieldError error)
    {
        ArgumentNullException.ThrowIfNull(error);
        return error.Problem == FieldProblem.TooSoon || error is { Field: DoseFields.Amount, Problem: FieldProblem.OutOfRange, High: < MostAmount };
    }

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
        TextChecks.Check(errors, DoseFields.AgainstLabel, dose.AgainstLabelReason, Dose.MaximumReasonLength, isRequired: false);
        CheckChoice(errors, DoseFields.Kind, dose.Kind);
        CheckChoice(errors, DoseFields.Unit, dose.Unit);
        CheckChoice(errors, DoseFields.LabelMeasure, dose.KeptMeasure);
        CheckNumbers(errors, dose, sump);
        return errors;
    }

    /// <summary>The volume that a dose is reckoned for, against what the sump holds by the record.</summary>
    internal static void CheckVolume(List<FieldError> errors, decimal typed, decimal held)
    {
        var most = decimal.Max(LeastLitres, decimal.Round(held * MostOverRecord, 1, MidpointRounding.AwayFromZero));
        if (typed > most)
        {
            errors.Add(new(DoseFields.Volume, FieldProblem.OutOfRange, typed, LeastLitres, most, "L"));
        }
    }

    /// <summary>Holds a dose that passed the other checks against its label: how much, and how long after the last of the same product.</summary>
    /// <param name="others">The doses of the charge that count.</param>
    /// <returns>All that the label does not allow: who says that it was given all the same must have seen each.</returns>
    internal static List<FieldError> CheckLabel(NoteDose dose, DoseReckoning reckoned, IEnumerable<Dose> others)
    {
        var same = others.Where(o => ProductNames.AreSame(o.Product, dose.Product)).OrderBy(o => o.GivenAtUtc).ToList();

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
        var errors = new List<FieldError>();
        if (plan.Decision == DoseDecision.TooSoon)
        {
            errors.Add(TooSoon(dose, same, TimeSpan.FromHours((double)hours)));
        }

        if (dose.LabelMost is not { } labelMost)
        {
            return errors;
        }

        var given = hours > 0 ? 0 : same.Where(o => (dose.GivenAtUtc - o.GivenAtUtc).Duration() < OneDose).Sum(o => PerLitreOf(o, dose)) * (double)dose.VolumeLitres;
        if (product + given <= most * (double)dose.VolumeLitres * (1 + Slack))
        {
            return errors;
        }

        var left = labelMost - (decimal)(given / (double)dose.VolumeLitres / DoseStrength.PerLitre(dose.KeptMeasure));
        var accepted = given == 0 ? reckoned.MostAmount
            : left > 0 ? DoseReckoning.Of(dose.Amount, dose.Unit, dose.VolumeLitres, dose.KeptMeasure, dose.DensityKgPerLitre, left).MostAmount
            : 0;
        if (accepted >= LeastAmount)
        {
            errors.Add(new(DoseFields.Amount, FieldProblem.OutOfRange, dose.Amount, LeastAmount, accepted, DoseUnits.Of(dose.Unit)));
        }
        else if (errors.Count == 0)
        {
            errors.Add(TooSoon(dose, same, OneDose));
        }

        return errors;
    }

    // From the time that was typed on, the first that keeps the distance to every other dose.
    private static FieldError TooSoon(NoteDose dose, List<Dose> same, TimeSpan distance)
    {
        var earliest = same.Aggregate(dose.GivenAtUtc, (at, other) => (at - other.GivenAtUtc).Duration() < distance ? other.GivenAtUtc + distance : at);
        return new(DoseFields.GivenAt, FieldProblem.TooSoon, Detail: dose.Product, EarliestUtc: earliest);
    }

    // Of an earlier dose, in mL or g a litre as the new one is reckoned. Without a density a millilitre is taken as a gram.
    private static double PerLitreOf(Dose other, NoteDose dose)
    {
        var perLitre = DoseReckoning.Product(other.Amount, other.Unit, other.Measure, other.DensityKgPerLitre) / (double)other.VolumeLitres;
        var density = (double)(other.DensityKgPerLitre ?? dose.DensityKgPerLitre ?? 1);
        return DoseStrength.IsByMass(other.Measure) == DoseStrength.IsByMass(dose.KeptMeasure) ? perLitre
            : DoseStrength.IsByMass(other.Measure) ? perLitre / density
            : perLitre * density;
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

        CheckRange(errors, DoseFields.LabelHours, dose.LabelHours, 0, MostLabelHours, "h", isBiocidal);
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
