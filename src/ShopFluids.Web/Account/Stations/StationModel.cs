using ShopFluids.Core.People.Stations;

namespace ShopFluids.Web.Account.Stations;

/// <summary>The tablet's door: tiles of people, then the PIN of one of them.</summary>
/// <param name="Person">Null shows the tiles.</param>
/// <param name="ReturnPath">Where to go afterwards, within this program.</param>
public sealed record StationModel(StationHere Station, IReadOnlyList<StationPerson> People, StationPerson? Person, string ReturnPath, string? Fault)
{
    public const string PersonField = "stationPerson";
    public const string PinField = "stationPin";

    /// <summary>Fields of the form that waits for the PIN; with any, the answer goes to where that form was sent.</summary>
    public IReadOnlyList<KeyValuePair<string, string>> Carried { get; init; } = [];
}
