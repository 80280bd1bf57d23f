using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Pages.Sheets.Panels;

/// <summary>The usual period of a sheet, or two days.</summary>
public sealed partial class PeriodChoice
{
    /// <summary>Tells its radio buttons from those of another panel.</summary>
    [Parameter, EditorRequired]
    public required string Name { get; set; }

    /// <summary>What the usual period is, in words.</summary>
    [Parameter, EditorRequired]
    public required string Usual { get; set; }

    [Parameter, EditorRequired]
    public required DateOnly Today { get; set; }

    [Parameter, EditorRequired]
    public required ChosenPeriod Period { get; set; }

    [Parameter]
    public EventCallback<ChosenPeriod> PeriodChanged { get; set; }

    private static string Write(DateOnly? day) => day is { } known ? DayInput.Write(known) : "";

    private static DateOnly? Read(ChangeEventArgs e) => DayInput.TryRead(e.Value as string, out var day) ? day : null;

    private Task ChooseAsync(ChosenPeriod period) => PeriodChanged.InvokeAsync(period);
}
