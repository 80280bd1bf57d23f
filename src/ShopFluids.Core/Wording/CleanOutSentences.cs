using ShopFluids.Core.CleanOuts;
using ShopFluids.Core.Sumps;

namespace ShopFluids.Core.Wording;

/// <summary>Says the steps of a clean-out and what was noted at them.</summary>
public static class CleanOutSentences
{
    public static string Step(CleanOutStepKind kind) => kind switch
    {
        CleanOutStepKind.Plan => Texts.CleanOut_Plan,
        CleanOutStepKind.SafetySheets => Texts.CleanOut_SafetySheets,
        CleanOutStepKind.Cleaner => Texts.CleanOut_Cleaner,
        CleanOutStepKind.Carrier => Texts.CleanOut_Carrier,
        CleanOutStepKind.LockOut => Texts.CleanOut_LockOut,
        CleanOutStepKind.Drain => Texts.CleanOut_Drain,
        CleanOutStepKind.Wipe => Texts.CleanOut_Wipe,
        CleanOutStepKind.Rinse => Texts.CleanOut_Rinse,
        CleanOutStepKind.Inspect => Texts.CleanOut_Inspect,
        CleanOutStepKind.Unlock => Texts.CleanOut_Unlock,
        CleanOutStepKind.Refill => Texts.CleanOut_Refill,
        _ => "",
    };

    public static string Confirmation(string code) => code switch
    {
        CleanOutConfirmations.SheetsRead => Texts.CleanOut_ConfirmSheets,
        CleanOutConfirmations.ProtectionOn => Texts.CleanOut_ConfirmProtection,
        CleanOutConfirmations.CarrierLicensed => Texts.CleanOut_ConfirmCarrier,
        CleanOutConfirmations.Labelled => Texts.CleanOut_ConfirmLabelled,
        CleanOutConfirmations.LockedOut => Texts.CleanOut_ConfirmLockedOut,
        CleanOutConfirmations.NobodyInside => Texts.CleanOut_ConfirmNobodyInside,
        CleanOutConfirmations.Ventilated => Texts.CleanOut_ConfirmVentilated,
        CleanOutConfirmations.AllClear => Texts.CleanOut_ConfirmAllClear,
        CleanOutConfirmations.GuardsOn => Texts.CleanOut_ConfirmGuardsOn,
        _ => throw new ArgumentOutOfRangeException(nameof(code), code, "There is no text for this confirmation."),
    };

    /// <summary>What a code of the waste list stands for; the code itself where it is another.</summary>
    public static string WasteCode(string code) => code switch
    {
        WasteCodes.OilHalogens => Texts.Waste_120106,
        WasteCodes.Oil => Texts.Waste_120107,
        WasteCodes.EmulsionHalogens => Texts.Waste_120108,
        WasteCodes.Emulsion => Texts.Waste_120109,
        WasteCodes.SyntheticOil => Texts.Waste_120110,
        WasteCodes.Sludge => Texts.Waste_120114,
        WasteCodes.OtherSludge => Texts.Waste_120115,
        WasteCodes.GrindingSludge => Texts.Waste_120118,
        WasteCodes.BiodegradableOil => Texts.Waste_120119,
        WasteCodes.SeparatedOil => Texts.Waste_130506,
        WasteCodes.OilyWater => Texts.Waste_130507,
        WasteCodes.Packaging => Texts.Waste_150110,
        WasteCodes.Cloths => Texts.Waste_150202,
        _ => code,
    };

    /// <summary>141 L under 12 01 09*.</summary>
    public static string Waste(this Sentences say, WasteAmount waste)
    {
        ArgumentNullException.ThrowIfNull(say);
        ArgumentNullException.ThrowIfNull(waste);
        return say.Format.Say(Texts.CleanOut_WasteOf, say.Format.Volume((double)waste.Litres), waste.Code);
    }

    /// <summary>What was noted at a step, in one line.</summary>
    public static string Noted(this Sentences say, CleanOutNote note)
    {
        ArgumentNullException.ThrowIfNull(say);
        ArgumentNullException.ThrowIfNull(note);
        return note.IsLeftOut ? say.Format.Say(Texts.CleanOut_LeftOut, note.Text) : string.Join(", ", Parts(say, note).Where(p => p.Length > 0));
    }

    /// <summary>How a clean-out ended: with what left the machine, or why it was broken off.</summary>
    public static string End(this Sentences say, HistoryCleanOut cleanOut)
    {
        ArgumentNullException.ThrowIfNull(say);
        ArgumentNullException.ThrowIfNull(cleanOut);
        return cleanOut.BrokenOffReason switch
        {
            null => say.Format.Say(Texts.CleanOut_EndedWith, string.Join(", ", cleanOut.Waste.Select(say.Waste))),
            { Length: 0 } => Texts.CleanOut_EndedByDrain,
            var reason => say.Format.Say(Texts.CleanOut_EndedBrokenOff, reason),
        };
    }

    private static IEnumerable<string> Parts(Sentences say, CleanOutNote note)
    {
        var format = say.Format;
        if (note.Choice is { } choice)
        {
            yield return choice.Rinses == 0
                ? format.Say(Texts.CleanOut_NotedPlanNoRinse, Brief(format, choice.CleanerPercent), Brief(format, choice.CirculationHours))
                : format.Say(Texts.CleanOut_NotedPlan, Brief(format, choice.CleanerPercent), Brief(format, choice.CirculationHours), format.Count(choice.Rinses), format.Volume((double)choice.RinseLitres));
        }

        if (note.Confirmed is { Count: > 0 })
        {
            yield return Texts.CleanOut_NotedConfirmed;
        }

        if (note.CleanerLitres is { } cleaner)
        {
            yield return format.Say(Texts.CleanOut_NotedCleaner, format.Volume((double)cleaner), Brief(format, note.Hours ?? 0));
        }

        if (note.ShortReason is { } reason)
        {
            yield return format.Say(Texts.CleanOut_NotedShort, reason);
        }

        foreach (var waste in note.Waste ?? [])
        {
            yield return say.Waste(waste);
        }

        if (note.SludgeMm is { } sludge)
        {
            yield return format.Say(Texts.CleanOut_NotedSludge, format.Length((double)sludge));
        }

        if (note.HalogensMgPerKg is { } halogens)
        {
            yield return format.Say(Texts.CleanOut_NotedHalogens, Halogens(format, halogens));
        }

        if (note.WaterLitres is { } water)
        {
            yield return format.Say(Texts.CleanOut_NotedRefill, format.Volume((double)water), format.Volume((double)note.AllConcentrateLitres()));
        }

        yield return note.OverrideReason ?? "";
        yield return note.Text;
    }

    /// <summary>640 mg/kg; from the presumption of mixed waste on with what that means.</summary>
    public static string Halogens(ShopFormat format, decimal mgPerKg)
    {
        ArgumentNullException.ThrowIfNull(format);
        return format.Say(HalogenPresumption.Holds(mgPerKg) ? Texts.CleanOut_HalogensPresumed : Texts.CleanOut_Halogens, Brief(format, mgPerKg));
    }

    /// <summary>0 h 10 min.</summary>
    public static string HoursAndMinutes(ShopFormat format, decimal hours)
    {
        ArgumentNullException.ThrowIfNull(format);
        var minutes = (int)decimal.Round(hours * 60, MidpointRounding.AwayFromZero);
        return format.Say(Texts.CleanOut_HoursMinutes, format.Count(minutes / 60), format.Count(minutes % 60));
    }

    /// <summary>12 h and 1.5 h: a decimal only where there is one.</summary>
    public static string Brief(ShopFormat format, decimal value)
    {
        ArgumentNullException.ThrowIfNull(format);
        return format.Number(value, value == decimal.Truncate(value) ? 0 : 1);
    }
}
