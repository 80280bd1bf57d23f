using ShopFluids.Web.Account;
using ShopFluids.Web.Api.Access;

namespace ShopFluids.Web.Api;

internal static class ApiServices
{
    public const string DocumentName = "v1";

    public static IServiceCollection AddApi(this IServiceCollection services) => services.AddProblemDetails().AddOpenApi(DocumentName);

    public static IEndpointRouteBuilder MapApi(this IEndpointRouteBuilder app)
    {
        app.MapOpenApi("/api/{documentName}/openapi.json").RequireAuthorization(Policies.CanRead);
        var api = app.MapGroup("/api/v1").RequireAuthorization(Policies.CanRead).AddEndpointFilter(ApiRefusals.RequireOwnHeader);
        return app;
    }
}
