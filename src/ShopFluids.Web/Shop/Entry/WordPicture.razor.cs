using Microsoft.AspNetCore.Components;

namespace ShopFluids.Web.Shop.Entry;

public partial class WordPicture
{
    [Parameter, EditorRequired] public required string Parameter { get; set; }

    /// <summary>0 for nothing, one more for each word.</summary>
    [Parameter, EditorRequired] public required int Grade { get; set; }
}
