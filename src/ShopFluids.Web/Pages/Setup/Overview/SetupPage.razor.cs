using Microsoft.AspNetCore.Components;
using ShopFluids.Core.People;
using ShopFluids.Core.Setup;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Setup.Overview;

/// <summary>Where a shop is set up: what is there, what is missing next.</summary>
public sealed partial class SetupPage
{
    [Inject]
    public required LotsQuery Lots { get; init; }

    [Inject]
    public required AccountsQuery Accounts { get; init; }

    protected override async Task<SetupOverview> ReadAsync(DeskWords words, CancellationToken cancellationToken) =>
        SetupOverview.Of(words, await Lots.RunAsync(cancellationToken), (await Accounts.AllAsync(cancellationToken)).Count);
}
