namespace ShopFluids.Rules.Facts;

/// <summary>What is known of the charge before a reading, for rules that look back. Superseded readings are not among it.</summary>
/// <param name="Readings">Earlier readings of the charge, oldest first; the reading judged is not among them.</param>
/// <param name="Movements">What was put in and taken out since the oldest of them, oldest first.</param>
public sealed record ChargeHistory(IReadOnlyList<ReadingFacts> Readings, IReadOnlyList<MovementFacts> Movements)
{
    /// <summary>A charge of which nothing is known yet.</summary>
    public static ChargeHistory Empty { get; } = new([], []);
}

/// <summary>Something put into the charge or taken out of it.</summary>
/// <param name="At">When, UTC.</param>
/// <param name="WaterLitres">Water put in, L.</param>
/// <param name="ConcentrateLitres">Concentrate put in, L.</param>
/// <param name="RemovedLitres">Mix taken out, L.</param>
public sealed record MovementFacts(DateTime At, double WaterLitres, double ConcentrateLitres, double RemovedLitres);
