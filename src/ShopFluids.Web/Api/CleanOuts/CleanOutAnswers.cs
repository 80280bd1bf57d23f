using ShopFluids.Calculations.Upkeep;
using ShopFluids.Core.CleanOuts;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Api.Json;
using ShopFluids.Web.Api.Readings;

namespace ShopFluids.Web.Api.CleanOuts;

/// <summary>A clean-out with its steps.</summary>
/// <param name="Charge">The number of the charge that is drained.</param>
/// <param name="State">open, finished or brokenOff.</param>
/// <param name="Next">The step whose turn it is; reading where only the first reading is missing, null once it has ended.</param>
/// <param name="Reading">The first reading of the new charge.</param>
/// <param name="Reason">Why it was broken off; empty where the charge was drained in another way.</param>
/// <param name="Numbers">What the plan comes to; null once it has ended.</param>
internal sealed record CleanOutAnswer(
    Guid Id,
    string Sump,
    int Charge,
    string State,
    string? Next,
    DateTime BegunAt,
    DateTime? EndedAt,
    string? EndedBy,
    Guid? Reading,
    string? Reason,
    CleanOutNumbersAnswer? Numbers,
    IReadOnlyList<CleanOutStepAnswer> Steps)
{
    private const string FirstReading = "reading";

    public static CleanOutAnswer Of(ListedCleanOut cleanOut, Sentences say)
    {
        var isOpen = cleanOut.EndedAtUtc is null;
        return new(
            cleanOut.Id,
            cleanOut.SumpTag,
            cleanOut.ChargeNumber,
            isOpen ? "open" : cleanOut.BrokenOffReason is null ? "finished" : "brokenOff",
            !isOpen ? null : cleanOut.Current is { } next ? Codes.Of(next.Kind) : FirstReading,
            cleanOut.BegunAtUtc,
            cleanOut.EndedAtUtc,
            isOpen ? null : cleanOut.EndedBy,
            cleanOut.ReadingId,
            cleanOut.BrokenOffReason,
            CleanOutNumbersAnswer.Of(cleanOut.Numbers),
            [.. cleanOut.Steps.Select(s => CleanOutStepAnswer.Of(s, cleanOut.LotNumbers, say))]);
    }
}

/// <summary>One step.</summary>
/// <param name="Step">plan, safetySheets, cleaner, carrier, lockOut, drain, wipe, rinse, inspect, unlock or refill.</param>
/// <param name="State">open, done or leftOut.</param>
/// <param name="Round">0 while it is open; it is sent back to put right what was noted.</param>
/// <param name="Confirm">What has to be confirmed before it counts as done.</param>
/// <param name="MayBeLeftOut">It may be left out with a reason.</param>
/// <param name="Noted">As it was sent; null while it is open.</param>
/// <param name="Text">What was noted, in words.</param>
internal sealed record CleanOutStepAnswer(
    string Step, string Name, string State, int Round, DateTime? DoneAt, string? By, IReadOnlyList<string> Confirm, bool MayBeLeftOut, CleanOutStepRequest? Noted, string? Text)
{
    public static CleanOutStepAnswer Of(CleanOutPageStep step, IReadOnlyDictionary<Guid, string> lots, Sentences say) => new(
        Codes.Of(step.Kind),
        CleanOutSentences.Step(step.Kind),
        step.Noted switch
        {
            null => "open",
            { IsLeftOut: true } => "leftOut",
            _ => "done",
        },
        step.Round,
        step.DoneAtUtc,
        step.Noted is null ? null : step.By,
        CleanOutConfirmations.Of(step.Kind),
        CleanOutSteps.MayBeLeftOut(step.Kind),
        step.Noted is { } noted ? NotedAs(noted, step, lots) : null,
        step.Noted is { } said ? say.Noted(said) : null);

    private static CleanOutStepRequest NotedAs(CleanOutNote note, CleanOutPageStep step, IReadOnlyDictionary<Guid, string> lots)
    {
        var text = note.Text.Length > 0 ? note.Text : null;
        var field = note.IsLeftOut ? CleanOutFields.Reason : CleanOutStepJson.TextFieldOf(step.Kind);
        return new(
            step.Round,
            note.Choice?.ContentLitres,
            note.Choice?.HeelLitres,
            note.Choice?.CleanerPercent,
            note.Choice?.CirculationHours,
            note.Choice?.Rinses,
            note.Choice?.RinseLitres,
            note.Confirmed,
            note.CleanerLitres,
            note.Hours,
            note.Waste is { } waste ? [.. waste.Select(w => new CleanOutWaste(w.Code, w.Litres))] : null,
            note.SludgeMm,
            note.WaterLitres,
            note.Draws is { } draws ? [.. draws.Select(d => new CleanOutDraw(d.LotId is { } lot ? lots.GetValueOrDefault(lot) : null, d.Litres))] : null,
            note.OverrideReason,
            field == CleanOutFields.Carrier ? text : null,
            field == CleanOutFields.Seen ? text : null,
            field == CleanOutFields.Note ? text : null,
            note.IsLeftOut ? true : null,
            field == CleanOutFields.Reason ? text : null,
            note.HalogensMgPerKg,
            note.ShortReason);
    }
}

/// <summary>What a plan comes to.</summary>
/// <param name="RemoveFirstLitres">Old fluid to take out where the cleaner would overflow the sump.</param>
/// <param name="WasteLitres">All that leaves the machine.</param>
/// <param name="OldFluidLeftPercent">Old fluid in the machine after the refill.</param>
/// <param name="ExpectedPercent">Concentration after the refill where the heel carries no product.</param>
internal sealed record CleanOutNumbersAnswer(
    double CleanerLitres,
    double CirculationHours,
    double RemoveFirstLitres,
    double DrainLitres,
    double RinseLitres,
    double WasteLitres,
    double OldFluidLeftPercent,
    double RefillWaterLitres,
    double RefillConcentrateLitres,
    double RefillPercent,
    double ExpectedPercent)
{
    private const int Decimals = 4;

    public static CleanOutNumbersAnswer? Of(CleanOutPlan? plan) => plan is null ? null : new(
        Short(plan.CleanerLitres),
        Short(plan.CirculationHours),
        Short(plan.RemoveForCleanerLitres),
        Short(plan.DrainLitres),
        Short(plan.RinseLitres),
        Short(plan.WasteLitres),
        Short(plan.OldFluidLeftPercent),
        Short(plan.Refill.WaterLitres),
        Short(plan.Refill.ConcentrateLitres),
        Short(plan.Refill.ExpectedPercent),
        Short(plan.ExpectedPercent));

    // The last digits of a double say nothing about a sump.
    private static double Short(double value) => Math.Round(value, Decimals, MidpointRounding.AwayFromZero);
}

/// <summary>What stands ready for the next clean-out of a sump, or what one that is open goes by.</summary>
/// <param name="CleanOut">The one that is open; null where none is.</param>
/// <param name="Due">When the draining that plan or flags ask for becomes late; null where none is asked for.</param>
/// <param name="WasteCode">Of the spent fluid, as its sheet says or as is usual.</param>
/// <param name="Lots">Lots of the fluid that hold anything, first to expire first.</param>
internal sealed record CleanOutReadyAnswer(
    string Sump, string Fluid, int Charge, Guid? CleanOut, DateTime? Due, CleanOutPlanAnswer Plan, CleanOutNumbersAnswer? Numbers, string WasteCode, string? SafetySheetPlace, IReadOnlyList<CleanOutLotAnswer> Lots)
{
    public static CleanOutReadyAnswer Of(CleanOutPage page) => new(
        page.Place.Tag,
        page.FluidName,
        page.ChargeNumber,
        page.CleanOutId,
        page.DueAtUtc,
        new(page.Choice.ContentLitres, page.Choice.HeelLitres, page.Choice.CleanerPercent, page.Choice.CirculationHours, page.Choice.Rinses, page.Choice.RinseLitres),
        CleanOutNumbersAnswer.Of(page.Numbers),
        page.OfFluid,
        page.SafetySheetPlace,
        [.. page.Lots.Select(l => new CleanOutLotAnswer(l.Number, l.ExpiresOn, l.RemainingLitres, l.IsExpired, l.IsQuarantined))]);
}

internal sealed record CleanOutPlanAnswer(decimal ContentLitres, decimal HeelLitres, decimal CleanerPercent, decimal CirculationHours, int Rinses, decimal RinseLitres);

internal sealed record CleanOutLotAnswer(string Number, DateOnly ExpiresOn, decimal RemainingLitres, bool Expired, bool Quarantined);

/// <param name="Reading">What the first reading of the new charge means.</param>
internal sealed record FinishedCleanOutAnswer(CleanOutAnswer CleanOut, ReadingAnswer Reading);
