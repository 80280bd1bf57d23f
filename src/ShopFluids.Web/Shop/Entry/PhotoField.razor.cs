using Microsoft.AspNetCore.Components;

namespace ShopFluids.Web.Shop.Entry;

public partial class PhotoField
{
    [Parameter, EditorRequired] public required EntryView View { get; set; }

    private string? Fault => View.FaultAt(EntryForm.PhotoName);

    private string DescribedBy => (Fault, View.Form.HadPhoto) switch
    {
        (not null, _) => "photo-hint photo-fault",
        (null, true) => "photo-hint photo-again",
        _ => "photo-hint",
    };
}
