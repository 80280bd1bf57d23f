using System.Collections.Frozen;
using ShopFluids.Core.Record;

namespace ShopFluids.Core.Wording.Trail;

/// <summary>What acts are called on pages.</summary>
public static class RecordActWords
{
    private static readonly FrozenDictionary<string, Func<string>> Words = new Dictionary<string, Func<string>>(StringComparer.Ordinal)
    {
        [ActCodes.ReadingStored] = () => Texts.RecordAct_ReadingStored,
        [ActCodes.ReadingCorrected] = () => Texts.RecordAct_ReadingCorrected,
        [ActCodes.AdditionStored] = () => Texts.RecordAct_AdditionStored,
        [ActCodes.RemovalStored] = () => Texts.RecordAct_RemovalStored,
        [ActCodes.DoseNoted] = () => Texts.RecordAct_DoseNoted,
        [ActCodes.DoseStruck] = () => Texts.RecordAct_DoseStruck,
        [ActCodes.ChargeFilled] = () => Texts.RecordAct_ChargeFilled,
        [ActCodes.ChargeDrained] = () => Texts.RecordAct_ChargeDrained,
        [ActCodes.CleanOutNoted] = () => Texts.RecordAct_CleanOutNoted,
        [ActCodes.CleanOutFinished] = () => Texts.RecordAct_CleanOutFinished,
        [ActCodes.CleanOutBrokenOff] = () => Texts.RecordAct_CleanOutBrokenOff,
        [ActCodes.SlideStarted] = () => Texts.RecordAct_SlideStarted,
        [ActCodes.SlideRead] = () => Texts.RecordAct_SlideRead,
        [ActCodes.SlideDiscarded] = () => Texts.RecordAct_SlideDiscarded,
        [ActCodes.StopSkipped] = () => Texts.RecordAct_StopSkipped,
        [ActCodes.TaskEnded] = () => Texts.RecordAct_TaskEnded,
        [ActCodes.TaskAssigned] = () => Texts.RecordAct_TaskAssigned,
        [ActCodes.TaskRedated] = () => Texts.RecordAct_TaskRedated,
        [ActCodes.WorkPlanned] = () => Texts.RecordAct_WorkPlanned,
        [ActCodes.ShutdownPlanned] = () => Texts.RecordAct_ShutdownPlanned,
        [ActCodes.ShutdownEnded] = () => Texts.RecordAct_ShutdownEnded,
        [ActCodes.FlagClosed] = () => Texts.RecordAct_FlagClosed,
        [ActCodes.OverdueNoticed] = () => Texts.RecordAct_OverdueNoticed,
        [ActCodes.FlagEscalated] = () => Texts.RecordAct_FlagEscalated,
        [ActCodes.ShopNoticed] = () => Texts.RecordAct_ShopNoticed,
        [ActCodes.ShopFlagAnswered] = () => Texts.RecordAct_ShopFlagAnswered,
        [ActCodes.InstrumentChecked] = () => Texts.RecordAct_InstrumentChecked,
        [ActCodes.SetupChanged] = () => Texts.RecordAct_SetupChanged,
        [ActCodes.RuleSet] = () => Texts.RecordAct_RuleSet,
        [ActCodes.RecordSealed] = () => Texts.RecordAct_RecordSealed,
        [ActCodes.Rejudged] = () => Texts.RecordAct_Rejudged,
        [ActCodes.LotReceived] = () => Texts.RecordAct_LotReceived,
        [ActCodes.LotQuarantined] = () => Texts.RecordAct_LotQuarantined,
        [ActCodes.LotReleased] = () => Texts.RecordAct_LotReleased,
        [ActCodes.LotCounted] = () => Texts.RecordAct_LotCounted,
        [ActCodes.LotDiscarded] = () => Texts.RecordAct_LotDiscarded,
        [ActCodes.AccountMade] = () => Texts.RecordAct_AccountMade,
        [ActCodes.AccountChanged] = () => Texts.RecordAct_AccountChanged,
        [ActCodes.PeopleNumbered] = () => Texts.RecordAct_PeopleNumbered,
        [ActCodes.PersonRenamed] = () => Texts.RecordAct_PersonRenamed,
        [ActCodes.CareTemplateApplied] = () => Texts.RecordAct_CareTemplateApplied,
        [ActCodes.DisplayMade] = () => Texts.RecordAct_DisplayMade,
        [ActCodes.DisplayChanged] = () => Texts.RecordAct_DisplayChanged,
        [ActCodes.DisplayRevoked] = () => Texts.RecordAct_DisplayRevoked,
        [ActCodes.StationMade] = () => Texts.RecordAct_StationMade,
        [ActCodes.StationEnrolled] = () => Texts.RecordAct_StationEnrolled,
        [ActCodes.StationChanged] = () => Texts.RecordAct_StationChanged,
        [ActCodes.StationRevoked] = () => Texts.RecordAct_StationRevoked,
    }.ToFrozenDictionary(StringComparer.Ordinal);

    /// <summary>Every act that there is, in the order of its words.</summary>
    public static IReadOnlyList<string> All => [.. Words.Keys.OrderBy(Of, StringComparer.CurrentCulture)];

    public static bool Has(string code) => Words.ContainsKey(code);

    /// <returns>The code itself where a later version has taken it back.</returns>
    public static string Of(string code) => Words.TryGetValue(code, out var word) ? word() : code;
}
