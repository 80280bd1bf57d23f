namespace ShopFluids.Rules.Facts;

/// <summary>One visit to a sump as the rules see it.</summary>
/// <param name="Id">The reading's id.</param>
/// <param name="TakenAt">When it was taken, UTC.</param>
/// <param name="Measurements">Its measurements; at most one for each parameter and method.</param>
public sealed record ReadingFacts(Guid Id, DateTime TakenAt, IReadOnlyList<MeasurementFacts> Measurements)
{
    // Looked through for each parameter in each reading of a charge: an array needs neither a call for each place nor an enumerator.
    private readonly MeasurementFacts[] _measurements = [.. Measurements];

    /// <summary>Its measurements; at most one for each parameter and method.</summary>
    public IReadOnlyList<MeasurementFacts> Measurements
    {
        get => _measurements;
        init => _measurements = [.. value];
    }

    /// <summary>Whether both are the same visit with the same measurements.</summary>
    /// <param name="other">The other one.</param>
    public bool Equals(ReadingFacts? other) => other is not null && Id == other.Id && TakenAt == other.TakenAt && _measurements.AsSpan().SequenceEqual(other._measurements);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Id, TakenAt, _measurements.Length);

    /// <summary>
    /// What was measured of a parameter, by the method that decides: titration is independent of tramp oil, so it decides where both were taken
    /// (DGUV Regel 109-003, 7.1.1). Null where nothing was.
    /// </summary>
    /// <param name="parameter">The parameter's code.</param>
    public MeasurementFacts? Decisive(string parameter)
    {
        MeasurementFacts? decisive = null;
        foreach (var measurement in _measurements)
        {
            if (measurement.Parameter == parameter && (decisive is null || measurement.Method == MethodCodes.Titration))
            {
                decisive = measurement;
            }
        }

        return decisive;
    }

    /// <summary>What was measured of a parameter by one method; null where nothing was.</summary>
    /// <param name="parameter">The parameter's code.</param>
    /// <param name="method">How it was measured.</param>
    public MeasurementFacts? By(string parameter, string method)
    {
        foreach (var measurement in _measurements)
        {
            if (measurement.Parameter == parameter && measurement.Method == method)
            {
                return measurement;
            }
        }

        return null;
    }
}

/// <summary>One measured value, already rounded to its parameter's resolution: the number shown is the number judged.</summary>
/// <param name="Parameter">One of <see cref="ParameterCodes"/> or a code of the shop's own.</param>
/// <param name="Method">How it was measured, such as refractometer or titration; empty where there is only one way.</param>
/// <param name="Value">The value in the parameter's canonical unit.</param>
/// <param name="Uncertainty">Its expanded uncertainty (k = 2) in the same unit; 0 where none is stated.</param>
public sealed record MeasurementFacts(string Parameter, string Method, decimal Value, decimal Uncertainty)
{
    /// <summary>
    /// To how many decimals the parameter is told, at least; 0 where that is not known. The value itself does not tell it: 9.0 is stored as 9.
    /// </summary>
    public int Decimals { get; init; }
}
