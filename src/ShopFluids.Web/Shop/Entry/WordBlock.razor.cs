using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Readings;

namespace ShopFluids.Web.Shop.Entry;

public partial class WordBlock
{
    private IReadOnlyList<string> _words = [];

    [Parameter, EditorRequired] public required EntryView View { get; set; }

    [Parameter, EditorRequired] public required EntryField Field { get; set; }

    private string Name => EntryForm.ValueName(Field.Key);

    private string FaultId => $"{Name}-fault";

    private string? Fault => View.FaultAt(Name);

    protected override void OnParametersSet() => _words = View.Visit.Sentences.Words(Field.Parameter);
}
