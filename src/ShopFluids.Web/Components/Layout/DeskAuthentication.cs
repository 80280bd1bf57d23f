using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.AspNetCore.Components.Server;
using ShopFluids.Web.Account;

namespace ShopFluids.Web.Components.Layout;

/// <summary>Signs an open circuit out when the sign-in that it began with no longer counts.</summary>
internal sealed class DeskAuthentication(ILoggerFactory logs, SignInCheck check) : RevalidatingServerAuthenticationStateProvider(logs)
{
    protected override TimeSpan RevalidationInterval => SignInCheck.Interval;

    protected override Task<bool> ValidateAuthenticationStateAsync(AuthenticationState authenticationState, CancellationToken cancellationToken) =>
        check.StillCountsAsync(authenticationState.User, cancellationToken);
}
