using ShopFluids.Calculations.Additives;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Sheets;

namespace ShopFluids.Core.Wording;

/// <summary>Says what was dosed, how much, and what its label allows. Amounts stay in the units of the label, whatever a person prefers elsewhere.</summary>
public static class DoseSentences
{
    private const int MostDecimals = 4;

    public static string Kind(DoseKind kind) => kind switch
    {
        DoseKind.Biocide => Texts.Dose_Biocide,
        DoseKind.Fungicide => Texts.Dose_Fungicide,
        DoseKind.PhRaiser => Texts.Dose_PhRaiser,
        DoseKind.Defoamer => Texts.Dose_Defoamer,
        DoseKind.Stabiliser => Texts.Dose_Stabiliser,
        DoseKind.Cleaner => Texts.Dose_Cleaner,
        _ => Texts.Dose_Other,
    };

    /// <summary>600 mL.</summary>
    public static string Amount(decimal amount, DoseUnit unit, ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        return $"{Plain(amount, format)} {DoseUnits.Of(unit)}";
    }

    /// <summary>1.5 mL/L.</summary>
    public static string Strength(decimal strength, DoseMeasure measure, ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        return $"{Plain(strength, format)} {DoseUnits.Of(measure)}";
    }

    /// <summary>Empty where the label says nothing.</summary>
    public static string LabelMost(DoseRow dose, ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(dose);
        return dose.LabelMost is { } most ? Strength(most, dose.Measure, format) : "";
    }

    /// <summary>600 mL of a product, biocide, for 400 L: 1.5 mL/L, label at most 2 mL/L.</summary>
    public static string Given(DoseRow dose, ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(dose);
        ArgumentNullException.ThrowIfNull(format);
        var given = format.Say(
            dose.LabelMost is null ? Texts.Dose_Given : Texts.Dose_GivenOfLabel,
            Amount(dose.Amount, dose.Unit, format),
            dose.Product,
            Kind(dose.Kind),
            format.Volume((double)dose.VolumeLitres),
            Strength(dose.Reached, dose.Measure, format),
            LabelMost(dose, format));
        return string.Join(' ', new[] { given, dose.ReentryUntilUtc is { } until ? format.Say(Texts.Dose_Reentry, format.DayAndTime(until)) : "", AgainstLabel(dose, format) }.Where(text => text.Length > 0));
    }

    /// <summary>That it was given against its label and why, with a sign that needs no colour; empty where it is as the label allows.</summary>
    public static string AgainstLabel(DoseRow dose, ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(dose);
        ArgumentNullException.ThrowIfNull(format);
        return dose.AgainstLabelReason is { } reason ? format.Say(Texts.Dose_AgainstLabel, reason) : "";
    }

    /// <summary>Why it was given, and why against its label where it was.</summary>
    public static string Reasons(DoseRow dose, ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(dose);
        return AgainstLabel(dose, format) is { Length: > 0 } against ? $"{against} {dose.Reason}" : dose.Reason;
    }

    /// <summary>When, by whom and why it was struck out; null where it counts.</summary>
    public static string? StruckOut(DoseRow dose, ShopFormat format, DateTime nowUtc)
    {
        ArgumentNullException.ThrowIfNull(dose);
        ArgumentNullException.ThrowIfNull(format);
        return dose.StruckOut is { } struck ? format.Say(Texts.Dose_StruckOutBy, format.Moment(struck.AtUtc, nowUtc), struck.By, struck.Reason) : null;
    }

    /// <summary>Keep away until 12:00: Biocide B-20.</summary>
    public static string Keep(KeepAway keepAway, ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(keepAway);
        ArgumentNullException.ThrowIfNull(format);
        return format.Say(Texts.Dose_KeepAway, format.DayAndTime(keepAway.UntilUtc), keepAway.Product);
    }

    /// <summary>What must be heeded before anything is put in; what can kill comes first.</summary>
    /// <param name="safetySheetPlace">Where the safety data sheets are kept; null where nobody said.</param>
    public static IReadOnlyList<string> Cautions(string? safetySheetPlace) =>
    [
        Sentences.Caution(Rules.Findings.Caution.HydrogenSulphide),
        Texts.Dose_CautionMixing,
        Texts.Dose_CautionVentilate,
        Texts.Dose_CautionLabel,
        Texts.Dose_CautionTrained,
        Sentences.Caution(Rules.Findings.Caution.GlovesAndGoggles, safetySheetPlace),
        Texts.Dose_CautionReentry,
        Texts.Caution_Deference,
    ];

    // Without idle zeros: PostgreSQL gives back 1.500000 for a stored 1.5.
    private static string Plain(decimal value, ShopFormat format) => format.Number(value, Math.Min(MostDecimals, (int)(value / 1.0000000000000000000000000000m).Scale));
}
