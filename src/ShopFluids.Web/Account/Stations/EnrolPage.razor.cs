using Microsoft.AspNetCore.Components;

namespace ShopFluids.Web.Account.Stations;

/// <param name="StationName">The station that waits for the code; null when the code is still to be typed.</param>
public sealed record EnrolModel(string Code, string? StationName, string? Fault);

public partial class EnrolPage
{
    [Parameter, EditorRequired] public required EnrolModel Model { get; set; }

    [Inject] public required IHttpContextAccessor Http { get; init; }

    private string BasePath => Http.HttpContext?.Request.PathBase.Value ?? "";
}
