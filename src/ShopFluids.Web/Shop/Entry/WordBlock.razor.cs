using System.Globalization;
using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Readings;
using ShopFluids.Rules.Advice;

namespace ShopFluids.Web.Shop.Entry;

public partial class WordBlock
{
    private IReadOnlyList<string> _words = [];

    [Parameter, EditorRequired] public required EntryView View { get; set; }

    [Parameter, EditorRequired] public required EntryField Field { get; set; }

    private string Name => EntryForm.ValueName(Field.Key);

    private string FaultId => $"{Name}-fault";

    private string? Fault => View.FaultAt(Name);

    private static string GasFrom => CautionAdvice.GasFromOdour.ToString(CultureInfo.InvariantCulture);

    private bool WarnsOfGas => decimal.TryParse(View.Form.Of(Field).Value, NumberStyles.None, CultureInfo.InvariantCulture, out var odour) && CautionAdvice.WarnsOfGas(odour);

    protected override void OnParametersSet() => _words = View.Visit.Sentences.Words(Field.Parameter);
}
