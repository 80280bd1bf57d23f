using ShopFluids.Core.Instruments;
using ShopFluids.Rules.InstrumentCheck;

namespace ShopFluids.Core.Wording;

/// <summary>Says what an instrument is and how often it is checked.</summary>
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
        return $"{QuantityInput.Write(value, QuantityKind.Number, format.Units, format.Culture)} {Unit(kind)}";
    }

    /// <summary>For how long a check holds, or that none is needed.</summary>
    public static string CheckHolds(Instrument instrument, ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(instrument);
        ArgumentNullException.ThrowIfNull(format);
        return instrument.NeedsChecks ? format.Say(Texts.Setup_Days, format.Count(instrument.CheckEveryDays ?? InstrumentCheckRule.UsualDays)) : Texts.Setup_CheckNone;
    }
}
