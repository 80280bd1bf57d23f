using System.Net;
using Microsoft.AspNetCore.HttpOverrides;
using ShopFluids.Web.Settings;

namespace ShopFluids.Web.Startup;

internal static class ProxyHeaders
{
    /// <summary>Believes a reverse proxy about the visitor's address and the outer scheme: one on this machine, or one of the settings.</summary>
    public static IServiceCollection AddProxyHeaders(this IServiceCollection services, ShopSettings settings) =>
        services.Configure<ForwardedHeadersOptions>(options =>
        {
            options.ForwardedHeaders = ForwardedHeaders.XForwardedFor | ForwardedHeaders.XForwardedProto | ForwardedHeaders.XForwardedHost;
            foreach (var proxy in settings.TrustedProxies)
            {
                if (IPAddress.TryParse(proxy, out var address))
                {
                    options.KnownProxies.Add(address);
                }
                else
                {
                    options.KnownIPNetworks.Add(System.Net.IPNetwork.Parse(proxy));
                }
            }
        });
}
