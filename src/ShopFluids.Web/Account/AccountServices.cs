using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.DataProtection.KeyManagement;
using Microsoft.AspNetCore.DataProtection.Repositories;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;
using ShopFluids.Core.Database;
using ShopFluids.Core.People;
using ShopFluids.Web.Account.Stations;
using ShopFluids.Web.Api.Access;

namespace ShopFluids.Web.Account;

internal static class AccountServices
{
    /// <summary>Picks the token for programs and the cookie for people.</summary>
    private const string EitherScheme = "ShopFluids";

    private static readonly TimeSpan SignedInFor = TimeSpan.FromHours(14);
    private static readonly TimeSpan LockedOutFor = TimeSpan.FromMinutes(5);
    private const int TriesBeforeLockout = 8;

    public static IServiceCollection AddAccounts(this IServiceCollection services)
    {
        services.AddAuthentication(options =>
            {
                options.DefaultScheme = EitherScheme;
                options.DefaultSignInScheme = IdentityConstants.ApplicationScheme;
            })
            .AddPolicyScheme(EitherScheme, null, options => options.ForwardDefaultSelector = TokenScheme.Select)
            .AddScheme<TokenSchemeOptions, TokenScheme>(TokenScheme.Name, null)
            .AddCookie(PinSession.Scheme, PinSession.Configure)
            .AddIdentityCookies();
        services.AddSingleton<TokenCache>();
        services.AddScoped<PasswordSignIn>();
        services.AddSingleton<PinDoor>();
        services.AddSingleton<StationAgain>();
        services.AddSingleton<SignInCheck>();
        services.Configure<SecurityStampValidatorOptions>(options => options.ValidationInterval = SignInCheck.Interval);
        services.AddSingleton<IAuthorizationMiddlewareResultHandler, SignInAgain>();
        services.AddIdentityCore<Person>(options =>
            {
                options.Lockout.MaxFailedAccessAttempts = TriesBeforeLockout;
                options.Lockout.DefaultLockoutTimeSpan = LockedOutFor;
                options.Lockout.AllowedForNewUsers = true;
            })
            .AddRoles<IdentityRole<Guid>>()
            .AddEntityFrameworkStores<ShopFluidsDbContext>()
            .AddSignInManager()
            .AddClaimsPrincipalFactory<PersonClaimsFactory>();
        services.ConfigureApplicationCookie(options =>
        {
            options.Cookie.Name = "shopfluids";
            options.Cookie.HttpOnly = true;
            // Lax: a link in a mail opens the page; a form on another site posts without the cookie.
            options.Cookie.SameSite = SameSiteMode.Lax;
            // A shift and its handover; a tablet in use stays signed in.
            options.ExpireTimeSpan = SignedInFor;
            options.SlidingExpiration = true;
            options.LoginPath = SignInEndpoints.Path;
            options.AccessDeniedPath = SignInEndpoints.NotAllowedPath;
            options.ReturnUrlParameter = SignInEndpoints.ReturnField;
            options.Events.OnRedirectToLogin = ApiRefusals.SignInOrRefuse;
            options.Events.OnRedirectToAccessDenied = ApiRefusals.DenyOrRefuse;
        });
        services.AddAuthorizationBuilder()
            .AddPolicies()
            // Every page needs a role unless it opts out.
            .SetFallbackPolicy(new AuthorizationPolicyBuilder().RequireAuthenticatedUser().RequireRole([.. Roles.All]).Build());
        services.AddDataProtection().SetApplicationName("ShopFluids");
        services.AddSingleton<IXmlRepository, KeyStore>();
        services.AddSingleton<IConfigureOptions<KeyManagementOptions>>(root =>
            new ConfigureOptions<KeyManagementOptions>(options => options.XmlRepository = root.GetRequiredService<IXmlRepository>()));
        services.AddSingleton<FirstRun>();
        services.AddAntiforgery(options =>
        {
            options.Cookie.Name = "shopfluids-form";
            // Never sent in the clear by a browser that got it over an encrypted connection.
            options.Cookie.SecurePolicy = CookieSecurePolicy.SameAsRequest;
            options.FormFieldName = FormPost.TokenField;
        });
        return services;
    }
}
