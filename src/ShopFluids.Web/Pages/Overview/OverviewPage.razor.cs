using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Overview;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Overview;

/// <summary>The whole shop: where every sump stands and since when, what is used month by month, and where it goes.</summary>
public sealed partial class OverviewPage
{
    [Inject]
    public required ShopOverviewQuery Query { get; init; }

    protected override string FailedText => Texts.Overview_Failed;

    protected override async Task<OverviewView> ReadAsync(DeskWords words, CancellationToken cancellationToken) =>
        new(await Query.RunAsync(cancellationToken), words);
}
