using Microsoft.AspNetCore.Components.Endpoints;

namespace ShopFluids.Web.Startup;

/// <summary>Tells browsers to run nothing but our own files, to show us in no frame, and to keep no page.</summary>
internal static class SecurityHeaders
{
    private const string Strict =
        "default-src 'self'; script-src 'self'; style-src 'self'; img-src 'self' data:; object-src 'none'; base-uri 'self'; form-action 'self'; frame-ancestors 'none'";

    // The component library of the desk pages writes style attributes; nothing else is loosened.
    private const string Desk =
        "default-src 'self'; script-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data:; object-src 'none'; base-uri 'self'; form-action 'self'; frame-ancestors 'none'";

    // A file that somebody brought along: should a browser ever take it for a page, it may do nothing.
    private const string File = "default-src 'none'; sandbox; frame-ancestors 'none'";

    public static IApplicationBuilder UseSecurityHeaders(this IApplicationBuilder app) => app.Use((http, next) =>
    {
        http.Response.OnStarting(Write, http);
        return next(http);
    });

    private static Task Write(object state)
    {
        var http = (HttpContext)state;
        var headers = http.Response.Headers;
        headers.ContentSecurityPolicy = PolicyOf(http.GetEndpoint());
        headers.XContentTypeOptions = "nosniff";
        headers.XFrameOptions = "DENY";
        headers["Referrer-Policy"] = "same-origin";
        headers["Permissions-Policy"] = "camera=(self), microphone=(), geolocation=()";
        if (headers.CacheControl.Count == 0)
        {
            headers.CacheControl = "no-store";
        }

        return Task.CompletedTask;
    }

    // Desk pages are the routable components; every other page is an endpoint that writes a document.
    private static string PolicyOf(Endpoint? endpoint) =>
        endpoint?.Metadata.GetMetadata<ComponentTypeMetadata>() is not null ? Desk
        : endpoint?.Metadata.GetMetadata<NothingButAFile>() is not null ? File
        : Strict;
}

/// <summary>On addresses that answer with a file out of the database and never with a page.</summary>
internal sealed class NothingButAFile;
