using Microsoft.AspNetCore.Components;
using ShopFluids.Core.CleanOuts;

namespace ShopFluids.Web.Shop.CleanOuts;

public partial class StepForm
{
    private CleanOutForm _form = new(new Dictionary<string, string>(StringComparer.Ordinal));

    [Parameter, EditorRequired] public required CleanOutView View { get; set; }

    [Parameter, EditorRequired] public required CleanOutPageStep Step { get; set; }

    /// <summary>The form whose button is at the bottom edge.</summary>
    [Parameter] public string? FormId { get; set; }

    private string ReasonId => CleanOutView.IdOf(Step.Kind, CleanOutFields.Reason);

    private bool IsLeavingOut => View.IsAt(Step.Kind) && View.IsLeavingOut;

    private string? ReasonFault => IsLeavingOut ? View.FaultAt(Step.Kind, CleanOutFields.Reason) : null;

    // Only whoever is too early is asked why.
    private bool IsAsked(CleanOutInput input) => input.Name != CleanOutFields.ShortReason || _form[input.Name].Length > 0 || View.FaultAt(Step.Kind, input.Name) is not null;

    protected override void OnParametersSet() => _form = View.FormOf(Step);
}
