using ShopFluids.Rules.Facts;

namespace ShopFluids.Rules.LateArrival;

/// <summary>A reading that arrives after later ones of its charge, or in place of another, with what is known of the charge.</summary>
/// <param name="Late">The reading, with the standing as it is.</param>
/// <param name="Known">
/// The charge's readings that count until now, oldest first, the one that is superseded among them; each with the limits of its time. Standing
/// and history are made here.
/// </param>
/// <param name="Movements">What was put in and taken out of the charge, oldest first.</param>
/// <param name="FirstTests">Of each test of the plan the task from which its series can be reckoned again; see <see cref="TestSeries"/>.</param>
/// <param name="LeastMeasurements">How far the rules look back at least, in measurements.</param>
/// <param name="LeastDays">How far they look back at least, in days.</param>
public sealed record LateCase(
    EvaluationInput Late,
    IReadOnlyList<EvaluationInput> Known,
    IReadOnlyList<MovementFacts> Movements,
    IReadOnlyList<OpenTask> FirstTests,
    int LeastMeasurements,
    int LeastDays)
{
    /// <summary>The reading in whose place this one comes; null where it is a new one.</summary>
    public Guid? Superseded { get; init; }

    /// <summary>The open flags and tasks that the superseded reading has led to.</summary>
    public IReadOnlySet<Guid> Led { get; init; } = new HashSet<Guid>();

    /// <summary>The flags of the charge that a person has closed.</summary>
    public IReadOnlyList<ClosedByHand> Closed { get; init; } = [];

    /// <summary>The readings in the order of their time with the late one, and without what it supersedes.</summary>
    public IReadOnlyList<EvaluationInput> With =>
    [
        .. Known.Where(r => r.Reading.Id != Superseded && r.Reading.TakenAt <= Late.Reading.TakenAt),
        Late,
        .. Known.Where(r => r.Reading.Id != Superseded && r.Reading.TakenAt > Late.Reading.TakenAt),
    ];
}

/// <summary>A flag that a person has closed.</summary>
/// <param name="Rule">The rule's code.</param>
/// <param name="Parameter">What it was about; empty for the sump as a whole.</param>
/// <param name="Severity">Warning or action.</param>
/// <param name="At">When, UTC.</param>
public sealed record ClosedByHand(string Rule, string Parameter, Verdict Severity, DateTime At);
