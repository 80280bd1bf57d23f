using System.Security.Claims;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;
using ShopFluids.Core.People;

namespace ShopFluids.Web.Account;

/// <summary>Asks the database whether a sign-in still counts: a circuit stays open for hours, its person's rights may end sooner.</summary>
public sealed class SignInCheck(AccountsQuery accounts, IOptions<IdentityOptions> options)
{
    /// <summary>How long a page or a cookie may go on with rights that were taken away, where nothing is done with them.</summary>
    public static readonly TimeSpan Interval = TimeSpan.FromMinutes(1);

    /// <returns>False once password or roles have changed since the sign-in, or the account is gone.</returns>
    public async Task<bool> StillCountsAsync(ClaimsPrincipal user, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(user);
        return user.FindFirstValue(options.Value.ClaimsIdentity.SecurityStampClaimType) is { Length: > 0 } carried
            && carried == await accounts.StampAsync(user.PersonId(), cancellationToken);
    }
}
