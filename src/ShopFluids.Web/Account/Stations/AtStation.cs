using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authorization;

namespace ShopFluids.Web.Account.Stations;

/// <summary>On addresses that a PIN opens. What does not carry it is shut to a PIN session, whatever roles the person has: pages, API and what is added later.</summary>
internal sealed class AtStation;

internal static class StationLimits
{
    /// <summary>Six digits on a shared tablet are worth less than a password: they let in to readings, additions and tasks, and nowhere else.</summary>
    public static IApplicationBuilder UseStationLimits(this IApplicationBuilder app) => app.Use(async (http, next) =>
    {
        if (http.User.AtStation() is not null
            && http.GetEndpoint() is { } endpoint
            && endpoint.Metadata.GetMetadata<AtStation>() is null
            && endpoint.Metadata.GetMetadata<IAllowAnonymous>() is null)
        {
            await http.ForbidAsync();
            return;
        }

        await next(http);
    });
}
