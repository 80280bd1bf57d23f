using Microsoft.AspNetCore.Components;

namespace ShopFluids.Web.Account;

public partial class NotAllowedPage
{
    [Inject] public required IHttpContextAccessor Http { get; init; }

    private string StartPath => $"{Http.HttpContext?.Request.PathBase}/";

    private string SignOutPath => $"{Http.HttpContext?.Request.PathBase}{SignInEndpoints.SignOutPath}";
}
