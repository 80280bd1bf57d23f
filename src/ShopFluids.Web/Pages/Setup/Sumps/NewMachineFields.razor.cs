using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Time;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Setup.Sumps;

public sealed partial class NewMachineFields
{
    [Parameter, EditorRequired]
    public required List<MachineDraft> Machines { get; set; }

    /// <summary>How many cannot be taken away again.</summary>
    [Parameter, EditorRequired]
    public required int Fewest { get; set; }

    [Parameter, EditorRequired]
    public required string MoreText { get; set; }

    [Parameter, EditorRequired]
    public required DeskWords Words { get; set; }

    /// <summary>One came or went.</summary>
    [Parameter, EditorRequired]
    public required EventCallback Changed { get; set; }

    [Inject]
    public required ShopClock Clock { get; init; }

    private bool HasLegends => Machines.Count > 1;

    private Task AddAsync()
    {
        Machines.Add(new MachineDraft(Clock.NewId()));
        return Changed.InvokeAsync();
    }

    private Task RemoveAsync(MachineDraft machine)
    {
        Machines.Remove(machine);
        return Changed.InvokeAsync();
    }
}
