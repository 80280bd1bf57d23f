using Microsoft.AspNetCore.Components;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Setup.Sumps;

/// <summary>Every sump in use with its machines, and the ways to what is set up for it.</summary>
public sealed partial class SumpsPage
{
    /// <summary>The tag of the sump that was added just now.</summary>
    [SupplyParameterFromQuery(Name = "added")]
    public string? Added { get; set; }

    protected override Task<DeskWords> ReadAsync(DeskWords words, CancellationToken cancellationToken) => Task.FromResult(words);
}
