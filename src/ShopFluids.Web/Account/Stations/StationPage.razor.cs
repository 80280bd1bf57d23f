using System.Globalization;
using Microsoft.AspNetCore.Components;
using ShopFluids.Core.People.Stations;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Account.Stations;

public partial class StationPage
{
    [Parameter, EditorRequired] public required StationModel Model { get; set; }

    [Inject] public required IHttpContextAccessor Http { get; init; }

    private static IEnumerable<string> Digits => Enumerable.Range(1, 9).Select(d => d.ToString(CultureInfo.InvariantCulture));

    private string BasePath => Http.HttpContext?.Request.PathBase.Value ?? "";

    private string Title => Model.Person?.DisplayName ?? Texts.Station_WhoIsThere;

    private string Subtitle => Model.Station.Place.Length == 0 ? Model.Station.Name : $"{Model.Station.Name}, {Model.Station.Place}";

    // Without one, a form goes to the address it stands at: there the carried form waits.
    private string? FormAction => Model.Carried.Count > 0 ? null : BasePath + StationEndpoints.Path;

    private string Tiles => BasePath + StationEndpoints.Path + Return;

    private string Password => BasePath + SignInEndpoints.Path + Return;

    private QueryString Return => QueryString.Create(SignInEndpoints.ReturnField, Model.ReturnPath);

    private string Tile(StationPerson person) => BasePath + StationEndpoints.Path + Return.Add(StationModel.PersonField, person.Id.ToString("D"));

    private bool IsDoubled(StationPerson person) => Model.People.Count(p => p.DisplayName == person.DisplayName) > 1;
}
