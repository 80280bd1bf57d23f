namespace ShopFluids.Core.Database;

/// <summary>Why something could not be done, as a code and values; the sentence is made where it is shown.</summary>
public abstract record Error;

/// <summary>A value that was refused, at its field.</summary>
/// <param name="Field">The field's name, such as measurements.ph or takenAt.</param>
/// <param name="Problem">What is wrong with it.</param>
/// <param name="Low">The accepted range, where there is one, in <paramref name="Unit"/>.</param>
public sealed record FieldError(string Field, FieldProblem Problem, decimal? Value = null, decimal? Low = null, decimal? High = null, string? Unit = null, string? Detail = null);

/// <summary>What can be wrong with a typed value.</summary>
public enum FieldProblem
{
    Missing,
    NotANumber,
    OutOfRange,
    OverTheBrim,
    UnknownUnit,
    UnknownParameter,
    UnknownMethod,
    UnknownChoice,
    UnknownInstrument,
    InTheFuture,
    BeforeTheFill,
    TooLong,
    TwiceInOneReading,
    TemperatureNeeded,
    NothingMeasured,
    LotExpired,
    LotQuarantined,
    LotTooSmall,
    LotOfAnotherFluid,
    NotUnique,
    NotAscending,
    NotATime,
    NotATag,
    WrongCount,
    DoesNotFit,

    /// <summary>It holds a character that no database keeps.</summary>
    NotText,
}

/// <summary>One or more fields were refused; nothing was stored.</summary>
public sealed record FieldErrors(IReadOnlyList<FieldError> Fields) : Error;

/// <summary>The value of a success, or the error.</summary>
public sealed class Result<T>
    where T : class
{
    private Result(T? value, Error? error)
    {
        Value = value;
        Error = error;
    }

    /// <summary>Null when <see cref="Error"/> is set.</summary>
    public T? Value { get; }

    /// <summary>Null when <see cref="Value"/> is set.</summary>
    public Error? Error { get; }

    public static implicit operator Result<T>(T value) => new(value, null);

    public static implicit operator Result<T>(Error error) => new(null, error);

    public TOut Match<TOut>(Func<T, TOut> success, Func<Error, TOut> failure) =>
        Value is not null ? success(Value) : failure(Error ?? throw new InvalidOperationException("A result has a value or an error."));
}
