using ShopFluids.Rules.Facts;

namespace ShopFluids.Rules.LateArrival;

/// <summary>A reading that arrives after later ones of its charge, with what is known of the charge.</summary>
/// <param name="Late">The reading, with the standing as it is.</param>
/// <param name="Others">The charge's other readings that count, oldest first, each with the limits of its time; standing and history are made here.</param>
/// <param name="Movements">What was put in and taken out of the charge, oldest first.</param>
/// <param name="FirstTests">Of each test of the plan the task from which its series can be reckoned again; see <see cref="TestSeries"/>.</param>
/// <param name="LeastMeasurements">How far the rules look back at least, in measurements.</param>
/// <param name="LeastDays">How far they look back at least, in days.</param>
public sealed record LateCase(
    EvaluationInput Late,
    IReadOnlyList<EvaluationInput> Others,
    IReadOnlyList<MovementFacts> Movements,
    IReadOnlyList<OpenTask> FirstTests,
    int LeastMeasurements,
    int LeastDays);
