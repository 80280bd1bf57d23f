using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Stores;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Stores;

/// <summary>What is on hand, from which lot to draw first, when to order, and what was used at what cost.</summary>
public sealed partial class StoresPage
{
    [Inject]
    public required StoresQuery Query { get; init; }

    protected override string FailedText => Texts.Stores_Failed;

    protected override async Task<StoresView> ReadAsync(DeskWords words, CancellationToken cancellationToken) =>
        new(await Query.RunAsync(cancellationToken), words, await Session.MayAsync(Policies.CanSupervise));
}
