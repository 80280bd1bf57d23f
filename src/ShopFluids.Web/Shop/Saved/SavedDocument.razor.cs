using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Shop.Saved;

public partial class SavedDocument
{
    [Parameter, EditorRequired] public required SavedView View { get; set; }

    private string Subtitle => string.Join(" · ", new[] { View.Visit.Machine(View.Page.Place), View.Say(Texts.Saved_Taken, View.Visit.Format.When(View.Page.TakenAtUtc, View.Page.NowUtc)) }.Where(s => s.Length > 0));
}
