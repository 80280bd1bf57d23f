using ShopFluids.Core.Instruments;
using ShopFluids.Rules.InstrumentCheck;

namespace ShopFluids.Core.Wording;

/// <summary>Says what an instrument is, how often it is checked, and what its checks came to.</summary>
public static class InstrumentSentences
{
    public static string Kind(InstrumentKind kind) => kind switch
    {
        InstrumentKind.Refractometer => Texts.Setup_KindRefractometer,
        InstrumentKind.PhMeter => Texts.Setup_KindPhMeter,
        InstrumentKind.PhStrips => Texts.Setup_KindPhStrips,
        InstrumentKind.Rule => Texts.Setup_KindRule,
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "There is no text for this kind of instrument."),
    };

    /// <summary>The unit of its scale.</summary>
    public static string Unit(InstrumentKind kind) => kind switch
    {
        InstrumentKind.Refractometer => "Brix",
        InstrumentKind.Rule => "mm",
        _ => "pH",
    };

    /// <summary>0.2 Brix: a resolution or an accuracy, in the unit of its scale whatever a person prefers elsewhere.</summary>
    public static string Amount(decimal value, InstrumentKind kind, ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        return $"{Number(value, format)} {Unit(kind)}";
    }

    /// <summary>For how long a check holds, that none is needed, or since when it is out of use.</summary>
    public static string CheckHolds(Instrument instrument, ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(instrument);
        ArgumentNullException.ThrowIfNull(format);
        return instrument.OutOfUseSince is { } day ? format.Say(Texts.Setup_OutOfUseSince, format.LongDay(day))
            : instrument.NeedsChecks ? format.Say(Texts.Setup_Days, format.Count(instrument.CheckEveryDays ?? InstrumentCheckRule.UsualDays))
            : Texts.Setup_CheckNone;
    }

    /// <summary>7.01: shown -15 mV.</summary>
    public static string Point(CheckPoint point, CheckRow check, InstrumentKind kind, ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(check);
        ArgumentNullException.ThrowIfNull(format);
        return format.Say(Texts.Instrument_Point, Number(point.Standard, format), Shown(point.Shown, check, kind, format));
    }

    /// <summary>Empty where it was checked without a standard.</summary>
    public static string Offset(CheckRow check, InstrumentKind kind, ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(check);
        ArgumentNullException.ThrowIfNull(format);
        return check.Offset is { } offset ? Shown(offset, check, kind, format) : "";
    }

    /// <summary>Empty where it was checked in fewer than two standards.</summary>
    public static string Slope(CheckRow check, ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(check);
        ArgumentNullException.ThrowIfNull(format);
        return check.SlopePercent is { } percent ? $"{Number(percent, format)} %" : "";
    }

    private static string Shown(decimal value, CheckRow check, InstrumentKind kind, ShopFormat format) => $"{Number(value, format)} {(check.IsInMillivolts ? "mV" : Unit(kind))}";

    private static string Number(decimal value, ShopFormat format) => QuantityInput.Write(value, QuantityKind.Number, format.Units, format.Culture);
}
