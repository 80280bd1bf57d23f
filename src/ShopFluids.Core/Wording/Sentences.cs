using ShopFluids.Calculations.Mixing;
using ShopFluids.Core.Limits;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Setup;
using ShopFluids.Rules;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Shutdowns;

namespace ShopFluids.Core.Wording;

/// <summary>
/// Makes the sentences that pages, sheets and the API show from the codes and numbers that rules and commands give. One
/// instance serves one person: their culture and units.
/// </summary>
public sealed class Sentences(ShopFormat format, ShopSetup setup)
{
    public ShopFormat Format { get; } = format;

    /// <summary>What may be measured at a sump, to be named to a program that sent no number.</summary>
    public AcceptedRange? RangeOf(string sumpTag, string parameter, string? method, string? unit) => AcceptedRange.For(setup, sumpTag, parameter, method, unit);

    public string Parameter(string code) => code switch
    {
        ParameterCodes.Concentration => Texts.Parameter_Concentration,
        ParameterCodes.Ph => Texts.Parameter_Ph,
        ParameterCodes.Level => Texts.Parameter_Level,
        ParameterCodes.Temperature => Texts.Parameter_Temperature,
        ParameterCodes.TrampOil => Texts.Parameter_TrampOil,
        ParameterCodes.Odour => Texts.Parameter_Odour,
        ParameterCodes.Foam => Texts.Parameter_Foam,
        ParameterCodes.Fines => Texts.Parameter_Fines,
        ParameterCodes.Bacteria => Texts.Parameter_Bacteria,
        ParameterCodes.Nitrite => Texts.Parameter_Nitrite,
        ParameterCodes.Nitrate => Texts.Parameter_Nitrate,
        ParameterCodes.Hardness => Texts.Parameter_Hardness,
        ParameterCodes.Conductivity => Texts.Parameter_Conductivity,
        ParameterCodes.Chloride => Texts.Parameter_Chloride,
        _ => setup.FindParameter(code)?.Name ?? code,
    };

    public static string Method(string method) => method switch
    {
        MethodCodes.Refractometer => Texts.Method_Refractometer,
        MethodCodes.Titration => Texts.Method_Titration,
        Readings.MeasuringMethod.Direct => Texts.Method_Direct,
        _ => method,
    };

    /// <summary>The words of a ladder, best first; empty for a parameter that is a number.</summary>
    public IReadOnlyList<string> Words(string code) => code switch
    {
        ParameterCodes.Odour => [Texts.Word_Odour0, Texts.Word_Odour1, Texts.Word_Odour2, Texts.Word_Odour3],
        ParameterCodes.Foam => [Texts.Word_Foam0, Texts.Word_Foam1, Texts.Word_Foam2, Texts.Word_Foam3],
        ParameterCodes.Fines => [Texts.Word_Fines0, Texts.Word_Fines1, Texts.Word_Fines2, Texts.Word_Fines3],
        _ => setup.FindParameter(code) is { Scale: ParameterScale.Words } own
            ? [.. Enumerable.Range(0, (int)own.PlausibleHigh + 1).Select(Format.Count)]
            : [],
    };

    /// <summary>A value in the person's units with its unit, or its word.</summary>
    public string Value(string code, decimal value)
    {
        var words = Words(code);
        if (words.Count > 0 && value >= 0 && value < words.Count && value == decimal.Truncate(value))
        {
            return words[(int)value];
        }

        var parameter = setup.FindParameter(code);
        return parameter is null ? Format.Number(value, 1) : Format.Quantity((double)value, parameter.Unit, DecimalsOf(parameter, value));
    }

    /// <summary>The verdict on one parameter: without its side where there is only one on which it can be bad.</summary>
    public string VerdictOn(string parameter, Verdict verdict, Direction direction) =>
        Verdict(verdict, parameter.Length == 0 || IsBadOnlyHigh(parameter) ? Direction.None : direction);

    public bool IsBadOnlyHigh(string parameter) => ParameterCodes.IsBadOnlyHigh(parameter) || Words(parameter).Count > 0;

    public static string Verdict(Verdict verdict, Direction direction = Direction.None) => (verdict, direction) switch
    {
        (Rules.Verdict.InRange, _) => Texts.Verdict_InRange,
        (Rules.Verdict.Warning, Direction.Low) => Texts.Verdict_WarningLow,
        (Rules.Verdict.Warning, Direction.High) => Texts.Verdict_WarningHigh,
        (Rules.Verdict.Warning, _) => Texts.Verdict_Warning,
        (Rules.Verdict.Action, Direction.Low) => Texts.Verdict_ActionLow,
        (Rules.Verdict.Action, Direction.High) => Texts.Verdict_ActionHigh,
        (Rules.Verdict.Action, _) => Texts.Verdict_Action,
        _ => Texts.Verdict_NotMeasured,
    };

    public static string Task(TaskKind kind) => kind switch
    {
        TaskKind.Test => Texts.Task_Test,
        TaskKind.Adjust => Texts.Task_Adjust,
        TaskKind.Skim => Texts.Task_Skim,
        TaskKind.ChangeFilter => Texts.Task_ChangeFilter,
        TaskKind.Circulate => Texts.Task_Circulate,
        TaskKind.Dose => Texts.Task_Dose,
        TaskKind.DrainClean => Texts.Task_DrainClean,
        TaskKind.Inspect => Texts.Task_Inspect,
        TaskKind.Calibrate => Texts.Task_Calibrate,
        TaskKind.ReadSlide => Texts.Task_ReadSlide,
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "There is no text for this kind of task."),
    };

    /// <summary>A task with its cause: a test by what it measures, again where a flag asked for it; an adjustment by its recipe.</summary>
    public string Task(TaskKind kind, string cause, TopUpRecipe? recipe)
    {
        var work = Work(kind, cause, recipe);
        return ShutdownWork.IsBefore(cause) ? Format.Say(Texts.Task_BeforeShutdown, work)
            : ShutdownWork.IsDuring(cause) ? Format.Say(Texts.Task_DuringShutdown, work)
            : ShutdownWork.IsAfter(cause) ? Format.Say(Texts.Task_AfterShutdown, work)
            : work;
    }

    /// <summary>The same where it stands under its shutdown, which need not be named again.</summary>
    public string Work(TaskKind kind, string cause, TopUpRecipe? recipe) => kind switch
    {
        _ when setup.FindStepOf(cause)?.Needs is { What.Length: > 0 } needs => needs.What,
        TaskKind.Test => Test(cause),
        TaskKind.Adjust when recipe is not null => Recipe(recipe),
        TaskKind.Inspect when !Rules.Scheduling.CareSchedule.IsPlanned(cause) => Format.Say(Texts.Task_InspectOf, this.SubjectOfCause(cause)),
        _ => WorkSentences.Planned(kind),
    };

    /// <summary>How it is done, in one line.</summary>
    public static string TaskHow(TaskKind kind) => kind switch
    {
        TaskKind.Adjust => Texts.Task_AdjustHow,
        TaskKind.Skim => Texts.Task_SkimHow,
        TaskKind.ChangeFilter => Texts.Task_ChangeFilterHow,
        TaskKind.Circulate => Texts.Task_CirculateHow,
        TaskKind.Dose => Texts.Task_DoseHow,
        TaskKind.DrainClean => Texts.Task_DrainCleanHow,
        TaskKind.Inspect => Texts.Task_InspectHow,
        TaskKind.Calibrate => Texts.Task_CalibrateHow,
        TaskKind.ReadSlide => Texts.Task_ReadSlideHow,
        _ => "",
    };

    /// <summary>The letter on the board's day strip.</summary>
    public static string TaskLetter(TaskKind kind) => kind switch
    {
        TaskKind.Test => Texts.Task_LetterTest,
        TaskKind.Adjust => Texts.Task_LetterAdjust,
        TaskKind.Skim => Texts.Task_LetterSkim,
        TaskKind.ChangeFilter => Texts.Task_LetterChangeFilter,
        TaskKind.Circulate => Texts.Task_LetterCirculate,
        TaskKind.Dose => Texts.Task_LetterDose,
        TaskKind.DrainClean => Texts.Task_LetterDrainClean,
        TaskKind.Inspect => Texts.Task_LetterInspect,
        TaskKind.Calibrate => Texts.Task_LetterCalibrate,
        TaskKind.ReadSlide => Texts.Task_LetterReadSlide,
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "There is no letter for this kind of task."),
    };

    /// <summary>11.5 L water with 0.6 L concentrate.</summary>
    public string Recipe(TopUpRecipe recipe)
    {
        ArgumentNullException.ThrowIfNull(recipe);
        var add = recipe.ConcentrateLitres > 0
            ? Format.Say(Texts.Recipe_Both, Format.Volume(recipe.WaterLitres), Format.Volume(recipe.ConcentrateLitres))
            : recipe.WaterLitres > 0 ? Format.Say(Texts.Recipe_Water, Format.Volume(recipe.WaterLitres)) : Texts.Recipe_Nothing;
        return recipe.RemoveLitres > 0 ? Format.Say(Texts.Recipe_Remove, Format.Volume(recipe.RemoveLitres), add) : add;
    }

    public static string Caution(Caution caution, string? safetySheetPlace = null) => caution switch
    {
        Rules.Findings.Caution.GlovesAndGoggles => string.IsNullOrWhiteSpace(safetySheetPlace)
            ? Texts.Caution_GlovesAndGoggles
            : string.Format(System.Globalization.CultureInfo.InvariantCulture, Texts.Caution_GlovesAndGogglesAt, safetySheetPlace),
        Rules.Findings.Caution.ConcentrateIntoWater => Texts.Caution_ConcentrateIntoWater,
        Rules.Findings.Caution.BiocideByLabel => Texts.Caution_BiocideByLabel,
        Rules.Findings.Caution.HydrogenSulphide => Texts.Caution_HydrogenSulphide,
        Rules.Findings.Caution.ResidualCurrent => Texts.Caution_ResidualCurrent,
        Rules.Findings.Caution.LockOut => Texts.Caution_LockOut,
        Rules.Findings.Caution.Nitrosamines => Texts.Caution_Nitrosamines,
        Rules.Findings.Caution.RegulatedWaste => Texts.Caution_RegulatedWaste,
        Rules.Findings.Caution.OccupationalHealth => Texts.Caution_OccupationalHealth,
        Rules.Findings.Caution.PumpRunsDry => Texts.Caution_PumpRunsDry,
        _ => throw new ArgumentOutOfRangeException(nameof(caution), caution, "There is no text for this caution."),
    };

    /// <summary>What the step behind a cause needs; null for the cause of a flag or a shutdown, and where nothing is said.</summary>
    public Care.StepNeeds? NeedsOf(string cause) => setup.FindStepOf(cause)?.Needs;

    /// <summary>About how long the step behind a cause takes, min; 0 where that is not said.</summary>
    public int MinutesOf(string cause) => setup.FindStepOf(cause)?.EstimatedMinutes ?? 0;

    private string Test(string cause)
    {
        var measured = setup.ParametersOfTest(cause);
        return measured.Count == 0 ? Texts.Task_Test
            : Rules.Scheduling.CareSchedule.IsPlanned(cause) ? Format.Say(Texts.Task_TestOf, string.Join(", ", measured.Select(Parameter)))
            : Format.Say(Rules.Advice.CorrectiveWork.AsksForASecondLook(cause) ? Texts.Task_TestBySecond : Texts.Task_TestAgain, Parameter(measured[0]));
    }

    // A finer instrument's second decimal is shown where it was read.
    private static int DecimalsOf(Parameter parameter, decimal value) =>
        decimal.Round(value, parameter.Decimals) == value ? parameter.Decimals : parameter.Decimals + 1;
}
