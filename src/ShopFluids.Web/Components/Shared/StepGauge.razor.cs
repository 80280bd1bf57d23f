using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Rounds;

namespace ShopFluids.Web.Components.Shared;

public partial class StepGauge
{
    [Parameter, EditorRequired] public required GaugeLimits Limits { get; set; }

    [Parameter] public decimal? Now { get; set; }

    [Parameter] public decimal? Last { get; set; }

    /// <summary>How a limit is written, in the person's units.</summary>
    [Parameter, EditorRequired] public required Func<decimal, string> Write { get; set; }

    /// <summary>The gauge in words.</summary>
    [Parameter, EditorRequired] public required string Label { get; set; }

    /// <summary>How large the numbers are written, and how many of them.</summary>
    [Parameter] public GaugeNumbers Numbers { get; set; } = GaugeNumbers.All;

    private StepGaugeLayout Layout => StepGaugeLayout.Of(Limits, Now, Last, Write, Numbers);
}
