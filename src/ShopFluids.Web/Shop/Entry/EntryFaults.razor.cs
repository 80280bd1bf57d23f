using Microsoft.AspNetCore.Components;

namespace ShopFluids.Web.Shop.Entry;

public partial class EntryFaults
{
    [Parameter, EditorRequired] public required EntryView View { get; set; }

    // A picker has no box of its own: its first key stands for it.
    private string Target(EntryFault fault) =>
        View.Page.Fields.Any(f => f.WordCount > 0 && EntryForm.ValueName(f.Key) == fault.Control) ? $"#{fault.Control}-0" : $"#{fault.Control}";
}
