using Microsoft.AspNetCore.Components;
using ShopFluids.Web.Account.Stations;

namespace ShopFluids.Web.Account;

public partial class NotAllowedPage
{
    [Inject] public required IHttpContextAccessor Http { get; init; }

    private bool IsAtStation => Http.HttpContext?.User.AtStation() is not null;

    private string PasswordPath => $"{Http.HttpContext?.Request.PathBase}{SignInEndpoints.Path}";

    private string StartPath => $"{Http.HttpContext?.Request.PathBase}/";

    private string SignOutPath => $"{Http.HttpContext?.Request.PathBase}{SignInEndpoints.SignOutPath}";
}
