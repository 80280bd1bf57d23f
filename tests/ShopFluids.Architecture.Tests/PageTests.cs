using System.Reflection;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Components;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Architecture.Tests;

public sealed class PageTests
{
    [Fact]
    public void Pages_OfTheDesk_NeedASignIn() =>
        Assert.Empty(Pages().Where(p => p != typeof(NotFound) && p.GetCustomAttribute<AuthorizeAttribute>() is null).Select(p => p.Name));

    [Fact]
    public void Pages_UnderSetup_NeedASupervisor() =>
        Assert.Empty(Pages()
            .Where(p => p.GetCustomAttributes<RouteAttribute>().Any(r => r.Template.StartsWith("/setup", StringComparison.Ordinal)))
            .Where(p => p.GetCustomAttribute<AuthorizeAttribute>() is not ({ Policy: "CanSupervise" } or { Roles: "supervisor,caretaker" }))
            .Select(p => p.Name));

    private static List<Type> Pages()
    {
        var pages = typeof(NotFound).Assembly.GetTypes().Where(t => t.GetCustomAttributes<RouteAttribute>().Any()).ToList();
        Assert.NotEmpty(pages);
        return pages;
    }
}
