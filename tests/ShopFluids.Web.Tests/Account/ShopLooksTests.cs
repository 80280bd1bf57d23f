using ShopFluids.Core.People;
using ShopFluids.Testing.Databases;
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
        await desk.OfferAsync("North");

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
}
