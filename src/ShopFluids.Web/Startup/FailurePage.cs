using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Http.HttpResults;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Api.Access;

namespace ShopFluids.Web.Startup;

/// <summary>What people and programs see when something failed or is not there: never an empty page, never the insides.</summary>
internal static class FailurePage
{
    public static IApplicationBuilder UseFailurePage(this IApplicationBuilder app)
    {
        app.UseExceptionHandler(new ExceptionHandlerOptions
        {
            ExceptionHandler = http => WriteAsync(http, http.Features.Get<IExceptionHandlerFeature>()?.Error is BadHttpRequestException bad ? bad.StatusCode : StatusCodes.Status500InternalServerError),
        });
        return app.UseStatusCodePages(context => WriteAsync(context.HttpContext, context.HttpContext.Response.StatusCode));
    }

    private static Task WriteAsync(HttpContext http, int status)
    {
        http.Response.StatusCode = status;
        var title = status switch
        {
            StatusCodes.Status404NotFound => Texts.Failure_NotFound,
            StatusCodes.Status405MethodNotAllowed => Texts.Failure_Method,
            StatusCodes.Status413PayloadTooLarge => Texts.Failure_TooLarge,
            < StatusCodes.Status500InternalServerError => Texts.Failure_BadRequest,
            _ => Texts.Failure_Server,
        };
        return ApiRefusals.IsApi(http.Request)
            ? TypedResults.Problem(statusCode: status, title: title).ExecuteAsync(http)
            : new RazorComponentResult<FailureDocument>(new { Title = title, IsOurFault = status >= StatusCodes.Status500InternalServerError }) { StatusCode = status }.ExecuteAsync(http);
    }
}
