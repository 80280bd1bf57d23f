using System.Security.Claims;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.People;
using ShopFluids.Core.People.Numbers;
using ShopFluids.Core.People.Stations;
using ShopFluids.Core.Wording;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Settings;
using ShopFluids.Web.Shop;
using ShopFluids.Web.Shop.Entry;
using Xunit;

namespace ShopFluids.Web.Tests.Account;

/// <summary>What is expected of people before they come must be what comes.</summary>
public sealed class ShopLooksTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task ToBeExpectedAsync_PeopleWithPasswordsAndPins_IsHowTheyCome(TestDatabase database)
    {
        await using var desk = await StationDesk.OpenAsync(database);
        var supervising = await desk.PersonAsync("alex", Roles.Supervisor);
        await desk.Host.AccountAsync("robin", Roles.Operator);
        await desk.Host.AccountAsync("kim", Roles.Auditor);
        var tablet = await desk.TabletAsync(await desk.OfferAsync());
        await desk.OfferAsync("North", "light");
        // Nobody comes from a tablet that was sent away, nor who has left.
        var west = await desk.OfferAsync("West", "shop");
        await desk.TabletAsync(west);
        (await desk.Host.Get<SetUpStationsHandler>().HandleAsync(new RevokeStation(west.Id), Some.Supervisor, Stop)).Done();
        (await desk.Host.Get<ChangeAccountHandler>().HandleAsync(new ChangePreferences(await desk.PersonAsync("bo"), UnitSystem.Metric, "dark"), Some.Supervisor, Stop)).Done();
        (await desk.Host.Get<RenameToNumberHandler>().HandleAsync(new RenameToNumber("bo"), Some.Supervisor, Stop)).Done();
        (await desk.Host.Get<ChangeAccountHandler>().HandleAsync(new ChangePreferences(supervising, UnitSystem.UsCustomary, "shop"), Some.Supervisor, Stop)).Done();

        var expected = await desk.Host.Get<ShopLooks>().ToBeExpectedAsync(Stop);

        Assert.Equal(3, expected.Count);
        await StationDesk.LetInAsync(tablet, supervising);
        await tablet.OpenAsync("/enter/S-07");
        Assert.True((await SeenAsync()).IsOnStation);
        var person = desk.Host.Browser();
        await person.SignInAsync("robin");
        await person.OpenAsync("/enter/S-07");
        Assert.True((await SeenAsync()).IsOperator);
        var supervisor = desk.Host.Browser();
        await supervisor.SignInAsync("alex");
        await supervisor.OpenAsync("/enter/S-07");
        Assert.True((await SeenAsync()).IsSupervisor);

        // The one of those to be expected that had not been there before.
        async Task<ShopLook> SeenAsync()
        {
            var seen = new List<ShopLook>();
            foreach (var look in expected)
            {
                if (await desk.Host.Get<KeptEntryPages>().FindAsync(look, "S-07", Stop) is not null)
                {
                    seen.Add(look);
                }
            }

            expected = [.. expected.Except(seen)];
            return Assert.Single(seen);
        }
    }

    // Its links would lead others to where the browser does not send their sign-in.
    [Theory]
    [InlineData("/Fluids", "/fluids")]
    [InlineData("/fluids", "/fluids")]
    [InlineData("", "")]
    public void Of_BasePathInCapitals_IsThatOfTheSettings(string asked, string expected)
    {
        using var services = new ServiceCollection().AddSingleton(new ShopSettings { DataFolder = "", Engine = Web.Settings.DatabaseEngine.Sqlite, ConnectionString = "", Urls = [], BasePath = "/fluids" }).BuildServiceProvider();
        var http = new DefaultHttpContext
        {
            RequestServices = services,
            User = new(new ClaimsIdentity([new(ClaimTypes.NameIdentifier, Some.Id().ToString())])),
            Request = { PathBase = asked },
        };

        Assert.Equal(expected, ShopReader.Of(http).Look.BasePath);
    }
}
