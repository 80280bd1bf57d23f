using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Overview;

namespace ShopFluids.Web.Pages.Overview;

public sealed partial class HeatCell
{
    // As many as there are ages of a reading; the fresher, the more steps are filled.
    private const int Steps = (int)ReadingAge.Never;

    [Parameter, EditorRequired]
    public required OverviewSump Sump { get; set; }

    [Parameter, EditorRequired]
    public required OverviewView View { get; set; }

    private int Fresh => Steps - (int)Sump.Age;
}
