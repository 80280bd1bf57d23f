namespace ShopFluids.Rules.Facts;

/// <summary>One visit to a sump as the rules see it.</summary>
/// <param name="Id">The reading's id.</param>
/// <param name="TakenAt">When it was taken, UTC.</param>
/// <param name="Measurements">Its measurements; at most one for each parameter and method.</param>
public sealed record ReadingFacts(Guid Id, DateTime TakenAt, IReadOnlyList<MeasurementFacts> Measurements);

/// <summary>One measured value, already rounded to its parameter's resolution: the number shown is the number judged.</summary>
/// <param name="Parameter">One of <see cref="ParameterCodes"/> or a code of the shop's own.</param>
/// <param name="Method">How it was measured, such as refractometer or titration; empty where there is only one way.</param>
/// <param name="Value">The value in the parameter's canonical unit.</param>
/// <param name="Uncertainty">Its expanded uncertainty (k = 2) in the same unit; 0 where none is stated.</param>
public sealed record MeasurementFacts(string Parameter, string Method, decimal Value, decimal Uncertainty);
