using Microsoft.AspNetCore.Components;
using ShopFluids.Core.CleanOuts;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Shop.CleanOuts;

public partial class StepField
{
    [Parameter, EditorRequired] public required CleanOutView View { get; set; }

    [Parameter, EditorRequired] public required CleanOutStepKind Kind { get; set; }

    [Parameter, EditorRequired] public required CleanOutInput Input { get; set; }

    [Parameter, EditorRequired] public required CleanOutForm Form { get; set; }

    private string Id => CleanOutView.IdOf(Kind, Input.Name);

    private string Label => View.Visit.Sentences.FieldName(Input.Name);

    private string Unit => Input.Unit.Length > 0 ? Input.Unit : QuantityInput.Unit(Input.Quantity, View.Visit.Format.Units);

    private string? Fault => View.FaultAt(Kind, Input.Name);

    private string FaultId => $"{Id}-fault";

    private string? Invalid => Fault is null ? null : "true";

    private string? DescribedBy => Fault is null ? null : FaultId;

    // The cursor goes to the first box that has to be typed again.
    private bool HasFocus => Fault is not null && CleanOutInput.Of(Kind, View.Visit.IsSupervisor).First(i => View.FaultAt(Kind, i.Name) is not null) == Input;
}
