using System.Collections.Frozen;

namespace ShopFluids.Core.Wording.Trail;

/// <summary>What the kinds of recorded rows are called on pages.</summary>
public static class RecordRowWords
{
    private static readonly FrozenDictionary<string, Func<string>> Words = new Dictionary<string, Func<string>>(StringComparer.Ordinal)
    {
        ["Addition"] = () => Texts.RecordRow_Addition,
        ["ApiToken"] = () => Texts.RecordRow_ApiToken,
        ["Area"] = () => Texts.RecordRow_Area,
        ["CarePlan"] = () => Texts.RecordRow_CarePlan,
        ["CareStep"] = () => Texts.RecordRow_CareStep,
        ["CareTask"] = () => Texts.RecordRow_CareTask,
        ["Charge"] = () => Texts.RecordRow_Charge,
        ["CleanOut"] = () => Texts.RecordRow_CleanOut,
        ["CleanOutStep"] = () => Texts.RecordRow_CleanOutStep,
        ["Dose"] = () => Texts.RecordRow_Dose,
        ["DoseStrike"] = () => Texts.RecordRow_DoseStrike,
        ["Flag"] = () => Texts.RecordRow_Flag,
        ["Display"] = () => Texts.RecordRow_Display,
        ["Fluid"] = () => Texts.RecordRow_Fluid,
        ["FluidLot"] = () => Texts.RecordRow_FluidLot,
        ["Instrument"] = () => Texts.RecordRow_Instrument,
        ["InstrumentCheck"] = () => Texts.RecordRow_InstrumentCheck,
        ["LimitSet"] = () => Texts.RecordRow_LimitSet,
        ["LotAdjustment"] = () => Texts.RecordRow_LotAdjustment,
        ["Machine"] = () => Texts.RecordRow_Machine,
        ["Measurement"] = () => Texts.RecordRow_Measurement,
        ["Parameter"] = () => Texts.RecordRow_Parameter,
        ["PersonNumber"] = () => Texts.RecordRow_PersonNumber,
        ["Photo"] = () => Texts.RecordRow_Photo,
        ["Reading"] = () => Texts.RecordRow_Reading,
        ["Rejudgement"] = () => Texts.RecordRow_Rejudgement,
        ["Removal"] = () => Texts.RecordRow_Removal,
        ["RuleSetting"] = () => Texts.RecordRow_RuleSetting,
        ["ShopFlag"] = () => Texts.RecordRow_ShopFlag,
        ["Shutdown"] = () => Texts.RecordRow_Shutdown,
        ["Site"] = () => Texts.RecordRow_Site,
        ["SkippedStop"] = () => Texts.RecordRow_SkippedStop,
        ["Slide"] = () => Texts.RecordRow_Slide,
        ["Station"] = () => Texts.RecordRow_Station,
        ["Sump"] = () => Texts.RecordRow_Sump,
        ["SumpMachine"] = () => Texts.RecordRow_SumpMachine,
        ["WaterSource"] = () => Texts.RecordRow_WaterSource,
    }.ToFrozenDictionary(StringComparer.Ordinal);

    public static bool Has(string code) => Words.ContainsKey(code);

    /// <returns>The code itself where a later version has taken it back.</returns>
    public static string Of(string code) => Words.TryGetValue(code, out var word) ? word() : code;
}
