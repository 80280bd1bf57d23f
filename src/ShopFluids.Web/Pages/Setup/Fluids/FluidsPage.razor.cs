using Microsoft.AspNetCore.Components;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Setup.Fluids;

/// <summary>The concentrates that the shop buys.</summary>
public sealed partial class FluidsPage
{
    /// <summary>The name of the fluid that was added just now.</summary>
    [SupplyParameterFromQuery(Name = "added")]
    public string? Added { get; set; }

    protected override Task<DeskWords> ReadAsync(DeskWords words, CancellationToken cancellationToken) => Task.FromResult(words);
}
