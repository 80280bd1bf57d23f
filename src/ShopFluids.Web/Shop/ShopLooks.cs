using ShopFluids.Core.People;
using ShopFluids.Core.People.Stations;
using ShopFluids.Web.Settings;

namespace ShopFluids.Web.Shop;

/// <summary>How the people who work on the shop floor will look at its pages, before any of them has come.</summary>
internal sealed class ShopLooks(AccountsQuery accounts, StationsQuery stations, ShopSettings settings)
{
    public async Task<IReadOnlyList<ShopLook>> ToBeExpectedAsync(CancellationToken cancellationToken)
    {
        var people = (await accounts.AllAsync(cancellationToken))
            .Where(p => p.LeftAtUtc is null && (p.Roles.Contains(Roles.Operator) || p.Roles.Contains(Roles.Supervisor)))
            .ToList();
        var themes = (await stations.AllAsync(cancellationToken)).Where(s => s is { EnrolledAtUtc: not null, RevokedAtUtc: null }).Select(s => s.Theme).ToList();
        var withPassword = people.Select(p => new ShopLook(p.Theme, p.Units, p.Roles.Contains(Roles.Operator), p.Roles.Contains(Roles.Supervisor), IsOnStation: false, settings.BasePath));
        // With a PIN everybody is an operator, and the page looks as the station does.
        var withPin = people.Where(p => p.HasPin).SelectMany(_ => themes, (p, theme) => new ShopLook(theme, p.Units, IsOperator: true, IsSupervisor: false, IsOnStation: true, settings.BasePath));
        // Tablets first, which ask for all sumps all day: the first that come are the last to be left out.
        return [.. withPin.Concat(withPassword).Distinct()];
    }
}
