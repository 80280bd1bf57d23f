using ShopFluids.Core.Database;
using ShopFluids.Core.Photos.Pictures;

namespace ShopFluids.Core.Readings;

/// <summary>A reading as it was typed or sent.</summary>
/// <param name="Id">Made by the sender; sending it twice stores it once.</param>
/// <param name="SupersedesId">For a correction: the reading that was wrong, with <paramref name="CorrectionReason"/>.</param>
public sealed record RecordReading(
    Guid Id,
    string SumpTag,
    DateTime TakenAtUtc,
    string Note,
    IReadOnlyList<TypedMeasurement> Measurements,
    Guid? SupersedesId = null,
    string? CorrectionReason = null)
{
    /// <summary>A photo taken beside it; stored with it or not at all.</summary>
    public CleanPicture? Photo { get; init; }
}

/// <summary>One typed value.</summary>
/// <param name="Method">refractometer, titration, direct; null or empty takes the parameter's usual way.</param>
/// <param name="Unit">As typed; null or empty takes the usual unit of the method.</param>
/// <param name="Instrument">The instrument's tag, where known.</param>
/// <param name="IsConfirmed">The person was asked about an unlikely value and kept it.</param>
public sealed record TypedMeasurement(
    string Parameter,
    string? Method,
    decimal Value,
    string? Unit,
    decimal? TemperatureCelsius = null,
    string? Instrument = null,
    bool IsConfirmed = false);

/// <summary>A stored reading and what it led to.</summary>
/// <param name="IsNew">False when this id was stored before with the same content.</param>
public sealed record RecordedReading(ReadingOutcome Outcome, bool IsNew);

public sealed record SumpNotFound(string Tag) : Error;

public sealed record SumpRetired(string Tag) : Error;

/// <summary>The sump stands empty: there is no charge that the reading could belong to.</summary>
public sealed record NoOpenCharge(string Tag) : Error;

/// <summary>The id is known with other content.</summary>
public sealed record OtherContentForId(Guid Id) : Error;

public sealed record ReadingNotFound(Guid Id) : Error;

public sealed record AlreadySuperseded(Guid Id) : Error;
