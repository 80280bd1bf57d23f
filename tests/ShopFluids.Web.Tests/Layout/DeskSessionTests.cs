using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.People;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Account;
using ShopFluids.Web.Components.Layout;
using Xunit;

namespace ShopFluids.Web.Tests.Layout;

public sealed class DeskSessionTests
{
    [Theory]
    [InlineData(true, new[] { Policies.CanOperate, Policies.CanSupervise })]
    [InlineData(false, new[] { Policies.CanOperate })]
    public async Task RightsAsync_SeveralRights_AreThoseThatThePersonHas(bool isSupervisor, string[] had)
    {
        await using var desk = await DeskContext.OpenAsync(isSupervisor);

        var rights = await desk.Services.GetRequiredService<DeskSession>().RightsAsync(Policies.CanAudit, Policies.CanSupervise, Policies.CanOperate);

        Assert.Equal(had, rights.Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task RightsAsync_ARightWasTakenAwayWhileThePageWasOpen_AreNone()
    {
        await using var desk = await DeskContext.OpenAsync();
        var session = desk.Services.GetRequiredService<DeskSession>();
        Assert.True(await session.MayAsync(Policies.CanOperate));
        var other = new MakeAccount(Some.Id(), "karrow", "K. Arrow", "pages of the desk", [Roles.Supervisor], "light");
        (await desk.Shop.Get<MakeAccountHandler>().HandleAsync(other, Some.Supervisor, Xunit.TestContext.Current.CancellationToken)).Done();

        (await desk.Shop.Get<ChangeAccountHandler>().HandleAsync(new ChangeRoles(DeskContext.SignInName, [Roles.Operator]), Some.Supervisor, Xunit.TestContext.Current.CancellationToken)).Done();

        Assert.Empty(await session.RightsAsync(Policies.CanSupervise, Policies.CanOperate));
        Assert.False(await session.MayAsync(Policies.CanOperate));
    }
}
