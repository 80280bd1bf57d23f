using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Readings;
using ShopFluids.Rules.Registry;

namespace ShopFluids.Web.Shop.Saved;

public partial class RuleFindings
{
    [Parameter, EditorRequired] public required SavedView View { get; set; }

    private IEnumerable<FlagOutcome> Found => View.Page.Reasons.Where(f => RuleRegistry.Find(f.Rule) is not null);
}
