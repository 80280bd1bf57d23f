using ShopFluids.Calculations.Upkeep;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Rounds;

namespace ShopFluids.Core.CleanOuts;

/// <summary>Everything that the page of a clean-out shows.</summary>
/// <param name="CleanOutId">Null where none has begun.</param>
/// <param name="Steps">In their order, with what was noted.</param>
/// <param name="Choice">What was planned, or what stands ready to be.</param>
/// <param name="Numbers">What the choice comes to.</param>
/// <param name="DueAtUtc">When the draining that plan or flags ask for becomes late; null when none is asked for.</param>
/// <param name="OfFluid">The waste code of the spent fluid.</param>
/// <param name="Lots">Lots of the fluid that hold anything, first to expire first.</param>
public sealed record CleanOutPage(
    SumpPlace Place,
    string FluidName,
    string? SafetySheetPlace,
    int ChargeNumber,
    DateTime NowUtc,
    Guid? CleanOutId,
    IReadOnlyList<CleanOutPageStep> Steps,
    CleanOutChoice Choice,
    CleanOutPlan Numbers,
    DateTime? DueAtUtc,
    string OfFluid,
    double TargetPercent,
    IReadOnlyList<LotChoice> Lots)
{
    /// <summary>Until when people keep away after a dose; null when nobody has to.</summary>
    public KeepAway? KeepAway { get; init; }

    /// <summary>The sump smelled of hydrogen sulphide when somebody last smelled at it: whoever drains it must know before they bend over it.</summary>
    public bool WarnsOfGas { get; init; }

    /// <summary>The step whose turn it is; null when only the first reading is missing.</summary>
    public CleanOutPageStep? Current => Steps.FirstOrDefault(s => s.Noted is null);

    public CleanOutPageStep? Step(CleanOutStepKind kind) => Steps.FirstOrDefault(s => s.Kind == kind);
}

/// <param name="Noted">Null while it is open.</param>
/// <param name="Round">0 while it is open.</param>
public sealed record CleanOutPageStep(CleanOutStepKind Kind, CleanOutNote? Noted, DateTime? DoneAtUtc, Guid? PersonId, string By, int Round);
