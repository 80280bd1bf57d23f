using System.Diagnostics.CodeAnalysis;

namespace ShopFluids.Core.Database;

/// <summary>Why something could not be done, as a code and values; the sentence is made where it is shown.</summary>
public abstract record Error;

/// <summary>A value that was refused, at its field.</summary>
/// <param name="Field">The field's name, such as measurements.ph or takenAt.</param>
/// <param name="Problem">What is wrong with it.</param>
/// <param name="Low">The accepted range, where there is one, in <paramref name="Unit"/>.</param>
/// <param name="EarliestUtc">For an instant: the earliest that is accepted.</param>
/// <param name="FirstDay">For a day: the first that is accepted.</param>
/// <param name="LastDay">For a day: the last that is accepted.</param>
public sealed record FieldError(
    string Field,
    FieldProblem Problem,
    decimal? Value = null,
    decimal? Low = null,
    decimal? High = null,
    string? Unit = null,
    string? Detail = null,
    DateTime? EarliestUtc = null,
    DateOnly? FirstDay = null,
    DateOnly? LastDay = null);

/// <summary>What can be wrong with a typed value.</summary>
public enum FieldProblem
{
    Missing,
    NotANumber,

    /// <summary>The sign in it may be one of thousands: 1,200.</summary>
    MaybeThousands,
    OutOfRange,
    OverTheBrim,

    /// <summary>It counts something, and was given decimals.</summary>
    NotWhole,
    UnknownUnit,
    UnknownParameter,
    UnknownMethod,
    UnknownChoice,
    UnknownInstrument,
    InTheFuture,

    /// <summary>The charge did not exist yet.</summary>
    BeforeTheFill,

    /// <summary>The charge before was still in the sump.</summary>
    BeforeTheDrain,

    /// <summary>Something was read, added or taken out later than the charge is said to have ended.</summary>
    BeforeTheLastEntry,

    /// <summary>Readings were judged by what would be changed after the fact.</summary>
    BeforeTheLastReading,

    DayOutOfRange,
    TooLong,
    TwiceInOneReading,
    TemperatureNeeded,
    NothingMeasured,

    /// <summary>The value is unlikely, and nobody has said that it is right.</summary>
    NotConfirmed,
    LotExpired,
    LotNotReceived,
    LotQuarantined,
    LotTooSmall,
    LotOfAnotherFluid,
    NotUnique,
    NotAscending,
    NotATime,
    NotATag,
    WrongCount,

    /// <summary>The slide was dipped so long ago that nothing can be told from it.</summary>
    SlideTooOld,

    /// <summary>The sump would hold less than the shop can measure.</summary>
    TooLittleToMeasure,

    /// <summary>Not length, width and height with a cross between them.</summary>
    NotThreeMeasures,

    /// <summary>The brim would lie under a level that was read in the sump.</summary>
    UnderALevelRead,
    DoesNotFit,

    /// <summary>The kind of work has no such find.</summary>
    NotAskedHere,

    /// <summary>The kind of work asks for no number that an interval could follow.</summary>
    NothingToFind,

    /// <summary>Nothing of it is a number whose trend could be followed.</summary>
    NothingToForecast,

    /// <summary>Not clock times, or one of them twice, or too many.</summary>
    NotClockTimes,

    /// <summary>The machines of the sump have no weekly running hours.</summary>
    NoRunningHours,

    /// <summary>It holds a character that no database keeps.</summary>
    NotText,

    /// <summary>The file begins like none of the kinds of pictures that are taken.</summary>
    NotAPicture,

    /// <summary>The file begins like a picture and does not go on as one.</summary>
    BrokenPicture,

    /// <summary>In megabytes.</summary>
    FileTooLarge,

    /// <summary>In pixels of the longer side.</summary>
    PictureTooLarge,

    /// <summary>Two standards so alike that they tell of no slope.</summary>
    TooNear,

    /// <summary>An instrument that is not checked in standards.</summary>
    NoStandards,

    /// <summary>The label of the product asks for more time between two doses.</summary>
    TooSoon,

    /// <summary>The cleaner of a clean-out cannot have gone round for as long as was planned; in hours.</summary>
    CirculatedTooShort,
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

    /// <summary>Whether there is an error instead of a value.</summary>
    public bool IsRefused([NotNullWhen(true)] out Error? error, [NotNullWhen(false)] out T? value)
    {
        value = Value;
        error = value is null ? Error ?? throw new InvalidOperationException("A result has a value or an error.") : null;
        return value is null;
    }

    public TOut Match<TOut>(Func<T, TOut> success, Func<Error, TOut> failure) =>
        Value is not null ? success(Value) : failure(Error ?? throw new InvalidOperationException("A result has a value or an error."));
}
