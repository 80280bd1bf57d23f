using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Rules;

/// <summary>Everything that one evaluation may look at. Nothing else is read: no clock, no database, no setting.</summary>
/// <param name="Now">The moment of judging, UTC.</param>
/// <param name="Window">Earlier readings of the charge, oldest first, for rules that look back.</param>
public sealed record EvaluationInput(
    SumpFacts Sump,
    FluidFacts Fluid,
    StandingFacts Standing,
    ReadingFacts Reading,
    IReadOnlyList<ReadingFacts> Window,
    IReadOnlyList<ParameterLimits> Limits,
    IReadOnlyList<CareStepFacts> Plan,
    ShopCalendar Calendar,
    DateTime Now);
