using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Shop.Saved;

public partial class AdditionFields
{
    private Guid? _chosen;

    [Parameter, EditorRequired] public required SavedView View { get; set; }

    private string? LotFault => View.FaultAt(AdditionForm.LotName);

    protected override void OnParametersSet() =>
        _chosen = Guid.TryParse(View.Addition.Lot, out var typed) ? typed : View.Faults.Count == 0 ? View.Page.LotFor(0)?.Id : null;

    private string Describe(SavedLot lot) => View.Say(
        lot.IsQuarantined ? Texts.Saved_LotQuarantined : lot.IsExpired ? Texts.Saved_LotExpired : Texts.Saved_LotUsable,
        lot.Number,
        View.Visit.Format.Volume((double)lot.RemainingLitres),
        View.Visit.Format.ShortDay(lot.ExpiresOn));
}
