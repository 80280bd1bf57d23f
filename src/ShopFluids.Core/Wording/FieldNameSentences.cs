using ShopFluids.Core.Care.Finds;
using ShopFluids.Core.CleanOuts;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Slides;

namespace ShopFluids.Core.Wording;

/// <summary>The name of a field as it stands beside its box.</summary>
public static class FieldNameSentences
{
    private const string MeasurementPrefix = "measurements.";
    private const string LimitsPrefix = "limits.";
    private const string RulesPrefix = "rules.";
    private const string LinesPrefix = "lines.";

    public static string FieldName(this Sentences say, string field)
    {
        ArgumentNullException.ThrowIfNull(say);
        ArgumentNullException.ThrowIfNull(field);
        if (field.StartsWith(MeasurementPrefix, StringComparison.Ordinal))
        {
            return OfMeasurement(say, field[MeasurementPrefix.Length..].Split('.'));
        }

        if (field.StartsWith(LimitsPrefix, StringComparison.Ordinal))
        {
            var parts = field[LimitsPrefix.Length..].Split('.');
            return say.Format.Say(parts is [_, "clearMargin"] ? Texts.FieldName_ClearMargin : Texts.FieldName_Limits, say.Parameter(parts[0]));
        }

        if (field.StartsWith(RulesPrefix, StringComparison.Ordinal) && field[RulesPrefix.Length..].Split('.') is [var rule, var number])
        {
            return RuleSentences.Number(rule, number);
        }

        if (field.StartsWith(LinesPrefix, StringComparison.Ordinal) && field[LinesPrefix.Length..].Split('.', 2) is [var line, var inLine])
        {
            return say.Format.Say(Texts.FieldName_OfLine, line, say.FieldName(inLine));
        }

        return Plain(field) ?? field;
    }

    /// <summary>A field in a line of a typed list.</summary>
    public static string OfLine(int number, string field) => FormattableString.Invariant($"{LinesPrefix}{number}.{field}");

    private static string OfMeasurement(Sentences say, string[] parts) => parts switch
    {
        [var code, "temperatureC"] => $"{say.Parameter(code)}, {Texts.FieldName_Temperature}",
        [var code, "method"] => say.Format.Say(Texts.FieldName_Method, say.Parameter(code)),
        [var code, "unit"] => say.Format.Say(Texts.FieldName_Unit, say.Parameter(code)),
        [var code, "instrument"] => say.Format.Say(Texts.FieldName_Instrument, say.Parameter(code)),
        [var code, ..] => say.Parameter(code),
        [] => "",
    };

    private static string? Plain(string field) => field switch
    {
        "takenAt" => Texts.FieldName_TakenAt,
        "note" => Texts.FieldName_Note,
        "photo" => Texts.FieldName_Photo,
        "lockMinutes" => Texts.FieldName_LockMinutes,
        "shiftEnds" => Texts.FieldName_ShiftEnds,
        "shift" => Texts.FieldName_Shift,
        "what" => Texts.FieldName_What,
        "filter" => Texts.FieldName_Filter,
        "steps" => Texts.FieldName_Steps,
        "acceptedRiskPercent" => Texts.FieldName_AcceptedRisk,
        "fluidKind" => Texts.Setup_FluidKind,
        "machineUse" => Texts.FieldName_MachineUse,
        "templateSteps" => Texts.FieldName_TemplateSteps,
        "sump" => Texts.FieldName_Sump,
        "id" => Texts.FieldName_Id,
        "correctionReason" => Texts.FieldName_CorrectionReason,
        "waterLitres" => Texts.FieldName_Water,
        "concentrateLitres" => Texts.FieldName_Concentrate,
        "removedLitres" => Texts.FieldName_Removed,
        "drainedLitres" => Texts.FieldName_DrainedLitres,
        "lot" => Texts.FieldName_Lot,
        "addedAt" => Texts.FieldName_AddedAt,
        "filledAt" => Texts.FieldName_FilledAt,
        "drainedAt" => Texts.FieldName_DrainedAt,
        "words" => Texts.FieldName_Words,
        "sumps" => Texts.FieldName_Sumps,
        "reason" => Texts.FieldName_Reason,
        "dueDay" => Texts.FieldName_DueDay,
        "overrideReason" => Texts.FieldName_OverrideReason,
        "person" => Texts.FieldName_Person,
        "reading" => Texts.FieldName_Reading,
        FindNames.OilLitres => Texts.FieldName_OilLitres,
        FindNames.FilterState => Texts.FieldName_FilterState,
        FindNames.SludgeMm => Texts.FieldName_SludgeMm,
        FindNames.CirculatedMinutes => Texts.FieldName_CirculatedMinutes,
        FindNames.Note => Texts.FieldName_FoundNote,
        SlideFields.Incubation => Texts.FieldName_Incubation,
        SlideFields.DippedAt => Texts.FieldName_DippedAt,
        SlideFields.ReadAt => Texts.FieldName_ReadAt,
        SlideFields.Value => Texts.Slide_Seen,
        _ => CleanOutNames(field) ?? DoseNames(field) ?? SetupNames(field),
    };

    private static string? CleanOutNames(string field) => field switch
    {
        CleanOutFields.Content => Texts.FieldName_OldFluid,
        CleanOutFields.Heel => Texts.FieldName_Heel,
        CleanOutFields.CleanerPercent => Texts.FieldName_CleanerPercent,
        CleanOutFields.CirculationHours => Texts.FieldName_CirculationHours,
        CleanOutFields.Rinses => Texts.FieldName_Rinses,
        CleanOutFields.RinseLitres => Texts.FieldName_RinseLitres,
        CleanOutFields.CleanerLitres => Texts.FieldName_CleanerLitres,
        CleanOutFields.Hours => Texts.FieldName_HoursRound,
        CleanOutFields.ShortReason => Texts.FieldName_ShortReason,
        CleanOutFields.Carrier => Texts.FieldName_Carrier,
        CleanOutFields.Halogens => Texts.FieldName_Halogens,
        CleanOutFields.Seen => Texts.FieldName_SeenThere,
        "wasteCode1" => Texts.FieldName_WasteCode,
        "wasteCode2" => Texts.FieldName_WasteCode2,
        "wasteLitres1" => Texts.FieldName_WasteLitres1,
        "wasteLitres2" => Texts.FieldName_WasteLitres2,
        "lot2" => Texts.FieldName_Lot2,
        "concentrateLitres2" => Texts.FieldName_Concentrate2,
        _ => null,
    };

    private static string? DoseNames(string field) => field switch
    {
        DoseFields.GivenAt => Texts.FieldName_GivenAt,
        DoseFields.Product => Texts.FieldName_Product,
        DoseFields.Kind => Texts.FieldName_DoseKind,
        DoseFields.Amount => Texts.FieldName_DoseAmount,
        DoseFields.Unit => Texts.FieldName_DoseUnit,
        DoseFields.Volume => Texts.FieldName_DoseVolume,
        DoseFields.Density => Texts.FieldName_ProductDensity,
        DoseFields.LabelMost => Texts.FieldName_LabelMost,
        DoseFields.LabelMeasure => Texts.FieldName_LabelUnit,
        DoseFields.LabelHours => Texts.FieldName_LabelHours,
        DoseFields.ReentryHours => Texts.FieldName_ReentryHours,
        DoseFields.AgainstLabel => Texts.FieldName_GivenAllTheSame,
        DoseFields.StrikeReason => Texts.FieldName_StrikeReason,
        DoseFields.Safety => Texts.FieldName_SafetyConfirmed,
        _ => null,
    };

    private static string? SetupNames(string field) => field switch
    {
        "fluid" => Texts.FieldName_Fluid,
        "name" => Texts.FieldName_Name,
        "isOn" => Texts.Setup_RuleSwitch,
        "seenNumber" => Texts.FieldName_SeenNumber,
        "tag" => Texts.FieldName_Tag,
        "sumpTag" => Texts.FieldName_SumpTag,
        "machineTag" => Texts.FieldName_MachineTag,
        "machineName" => Texts.FieldName_MachineName,
        "machines" => Texts.FieldName_Machines,
        "machineList" => Texts.FieldName_MachineList,
        "line" => Texts.FieldName_Line,
        "size" => Texts.FieldName_Size,
        "process" => Texts.FieldName_Process,
        "weeklyHours" => Texts.FieldName_WeeklyHours,
        "area" => Texts.FieldName_Area,
        "walkOrder" => Texts.FieldName_WalkOrder,
        "waterSource" => Texts.FieldName_WaterSource,
        "lengthMm" => Texts.FieldName_Length,
        "widthMm" => Texts.FieldName_Width,
        "brimMm" => Texts.FieldName_Brim,
        "displacedLitres" => Texts.FieldName_Displaced,
        "fullMarkMm" => Texts.FieldName_FullMark,
        "pumpIntakeMm" => Texts.FieldName_PumpIntake,
        "strappingTable" => Texts.FieldName_StrappingTable,
        "refractometerFactor" => Texts.FieldName_RefractometerFactor,
        "titrationFactor" => Texts.FieldName_TitrationFactor,
        "targetLow" => Texts.FieldName_TargetLow,
        "targetHigh" => Texts.FieldName_TargetHigh,
        "targetPercent" => Texts.FieldName_TargetPercent,
        "premixMinimum" => Texts.FieldName_PremixMinimum,
        "premixMaximum" => Texts.FieldName_PremixMaximum,
        "shelfLifeDays" => Texts.FieldName_ShelfLife,
        "openedLifeDays" => Texts.FieldName_OpenedLife,
        "checkedOn" => Texts.Setup_CheckedOn,
        "checkEveryDays" => Texts.FieldName_CheckEvery,
        "firstStandard" => Texts.FieldName_FirstStandard,
        "firstShown" => Texts.FieldName_FirstShown,
        "secondStandard" => Texts.FieldName_SecondStandard,
        "secondShown" => Texts.FieldName_SecondShown,
        "celsius" => Texts.FieldName_StandardsCelsius,
        "wasteCode" => Texts.FieldName_WasteCode,
        "safetySheetPlace" => Texts.FieldName_SafetySheetPlace,
        "biocide" => Texts.FieldName_Biocide,
        "number" => Texts.FieldName_LotNumber,
        "countedLitres" => Texts.FieldName_CountedLitres,
        "receivedOn" => Texts.FieldName_ReceivedOn,
        "expiresOn" => Texts.FieldName_ExpiresOn,
        "litres" => Texts.FieldName_Litres,
        "pricePerLitre" => Texts.FieldName_Price,
        "validFrom" => Texts.FieldName_ValidFrom,
        "intervalDays" or "intervalMonths" or "intervalHours" => Texts.FieldName_Interval,
        "floorDays" => Texts.FieldName_FloorDays,
        "ceilingDays" => Texts.FieldName_CeilingDays,
        "wantedFind" => Texts.FieldName_WantedFind,
        "eventParameter" => Texts.FieldName_EventParameter,
        "estimatedMinutes" => Texts.FieldName_Minutes,
        "kind" => Texts.FieldName_Kind,
        "basis" => Texts.Setup_Basis,
        "anchor" => Texts.Setup_FirstDay,
        "closedDays" => Texts.Setup_OnClosedDays,
        "firstDay" => Texts.FieldName_FirstDay,
        "lastDay" => Texts.FieldName_LastDay,
        "parameters" => Texts.FieldName_Parameters,
        "resolution" => Texts.FieldName_Resolution,
        "accuracy" => Texts.FieldName_Accuracy,
        "zeroBrix" => Texts.FieldName_ZeroBrix,
        "hardness" => Texts.Parameter_Hardness,
        "nitrate" => Texts.Parameter_Nitrate,
        "nitrite" => Texts.Parameter_Nitrite,
        "owner" => Texts.FieldName_LimitsOwner,
        "timeZone" => Texts.FieldName_TimeZone,
        "culture" => Texts.FieldName_Culture,
        "currency" => Texts.FieldName_Currency,
        "dayStartHour" => Texts.FieldName_DayStart,
        "fluidKeepYears" => Texts.FieldName_FluidKeepYears,
        "exposureKeepYears" => Texts.FieldName_ExposureKeepYears,
        "closedWeekdays" => Texts.FieldName_ClosedWeekdays,
        "measurableLitres" => Texts.FieldName_Measurable,
        _ => null,
    };
}
