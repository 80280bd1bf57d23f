using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Machines;

/// <param name="View">Null where there is no such machine.</param>
public sealed record FoundMachine(MachineView? View);

/// <summary>One machine: how its sumps stand, what they used, what was in them.</summary>
public sealed partial class MachinePage
{
    [Parameter]
    public string Tag { get; set; } = "";

    [Inject]
    public required MachinePageQuery Query { get; init; }

    protected override string FailedText => Texts.Machine_Failed;

    protected override async Task<FoundMachine> ReadAsync(DeskWords words, CancellationToken cancellationToken) =>
        new(await Query.RunAsync(Tag, cancellationToken) is { } page ? new(page, words) : null);
}
