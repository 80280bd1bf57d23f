using ShopFluids.Calculations.Additives;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Pages.Setup.Fields;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Sumps.Doses;

/// <summary>A dose as it is being typed. Amounts are in the unit of the label, whatever a person prefers elsewhere.</summary>
public sealed class DoseDraft
{
    private const string Confirmed = "yes";
    private const decimal MostLitres = 1_000_000;

    public DoseDraft(Guid id, DosePage page, ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(page);
        ArgumentNullException.ThrowIfNull(format);
        Id = id;
        GivenAt = DayInput.WriteTime(page.NowUtc, format.Calendar);
        Volume.Show(page.VolumeLitres is { } litres ? (decimal)litres : null, format);
    }

    public static IReadOnlyList<Choice> Kinds => [.. Enum.GetValues<DoseKind>().Select(k => new Choice(k.ToString(), DoseSentences.Kind(k)))];

    public static IReadOnlyList<Choice> Units => [.. Enum.GetValues<DoseUnit>().Select(u => new Choice(u.ToString(), DoseUnits.Of(u)))];

    public static IReadOnlyList<Choice> Measures => [.. DoseUnits.Measures.Select(m => new Choice(m.ToString(), DoseUnits.Of(m)))];

    public static IReadOnlyList<Choice> Confirmations => [new(Confirmed, Texts.Dose_Safety)];

    public Guid Id { get; }

    public string GivenAt { get; set; }

    public string Product { get; set; } = "";

    public string Kind { get; set; } = "";

    public NumberBox Amount { get; } = new();

    public string Unit { get; set; } = nameof(DoseUnit.Millilitre);

    public NumberBox Volume { get; } = new(QuantityKind.Volume);

    public NumberBox Density { get; } = new();

    public NumberBox LabelMost { get; } = new();

    public string Measure { get; set; } = nameof(DoseMeasure.MillilitresPerLitre);

    public NumberBox LabelHours { get; } = new();

    public NumberBox ReentryHours { get; } = new();

    public string Reason { get; set; } = "";

    /// <summary>A supervisor's, after the label refused.</summary>
    public string AgainstLabelReason { get; set; } = "";

    /// <summary>What is typed was refused for what its label says.</summary>
    public bool IsAgainstLabel { get; set; }

    public IReadOnlySet<string> Ticked { get; set; } = new HashSet<string>(StringComparer.Ordinal);

    public bool IsBiocidal => Enum.TryParse<DoseKind>(Kind, out var kind) && DoseKinds.IsBiocidal(kind);

    public string UnitSign => DoseUnits.Of(UnitChosen);

    public string MeasureSign => DoseUnits.Of(MeasureChosen);

    public bool NeedsDensity => DoseReckoning.NeedsDensity(UnitChosen, MeasureChosen);

    private DoseUnit UnitChosen => Enum.TryParse<DoseUnit>(Unit, out var unit) ? unit : DoseUnit.Millilitre;

    private DoseMeasure MeasureChosen => Enum.TryParse<DoseMeasure>(Measure, out var measure) ? measure : DoseMeasure.MillilitresPerLitre;

    /// <summary>What is typed, as far as it can be read; the reader holds the rest.</summary>
    public NoteDose Read(FormReader read, string sumpTag)
    {
        ArgumentNullException.ThrowIfNull(read);
        return new(
            Id,
            sumpTag,
            read.Time(DoseFields.GivenAt, GivenAt),
            read.Text(DoseFields.Product, Product),
            read.Choice<DoseKind>(DoseFields.Kind, Kind),
            read.Number(DoseFields.Amount, Amount),
            read.Choice<DoseUnit>(DoseFields.Unit, Unit),
            read.Number(DoseFields.Volume, Volume),
            read.Text(DoseFields.Reason, Reason))
        {
            Measure = read.Choice<DoseMeasure>(DoseFields.LabelMeasure, Measure),
            DensityKgPerLitre = NeedsDensity ? read.OptionalNumber(DoseFields.Density, Density) : null,
            LabelMost = read.OptionalNumber(DoseFields.LabelMost, LabelMost),
            LabelHours = read.OptionalNumber(DoseFields.LabelHours, LabelHours),
            ReentryHours = read.OptionalNumber(DoseFields.ReentryHours, ReentryHours),
            AgainstLabelReason = IsAgainstLabel ? AgainstLabelReason : null,
            IsSafetyConfirmed = Ticked.Contains(Confirmed),
        };
    }

    /// <summary>What it comes to so far; null while something is missing or cannot be.</summary>
    public string? Comes(ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        var (density, most) = (Density.Value(format.Units), LabelMost.Value(format.Units));
        if (Amount.Value(format.Units) is not (>= DoseChecks.LeastAmount and <= DoseChecks.MostAmount and var amount)
            || Volume.Value(format.Units) is not (>= DoseChecks.LeastLitres and <= MostLitres and var volume)
            || (NeedsDensity && density is not (>= DoseChecks.LeastDensity and <= DoseChecks.MostDensity))
            || most < DoseChecks.LeastLabel
            || most > DoseChecks.MostLabel(MeasureChosen))
        {
            return null;
        }

        var reckoned = DoseReckoning.Of(amount, UnitChosen, volume, MeasureChosen, density, most);
        var reached = DoseSentences.Strength(reckoned.Reached, MeasureChosen, format);
        return reckoned.MostAmount is not { } allowed ? format.Say(Texts.Dose_Comes, reached)
            : format.Say(amount > allowed ? Texts.Dose_ComesOver : Texts.Dose_ComesOfLabel, reached, DoseSentences.Amount(allowed, UnitChosen, format));
    }
}
