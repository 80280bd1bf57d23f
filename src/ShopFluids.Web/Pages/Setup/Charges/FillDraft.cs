using ShopFluids.Calculations.Mixing;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Pages.Setup.Fields;

namespace ShopFluids.Web.Pages.Setup.Charges;

/// <summary>A fill as it is being typed: either what is wanted, from which the amounts are worked out, or the amounts themselves.</summary>
public sealed class FillDraft(Guid chargeId)
{
    public const string ByMix = "mix";
    public const string ByAmounts = "amounts";

    public Guid ChargeId { get; } = chargeId;

    public string SumpTag { get; set; } = "";

    public string FluidId { get; set; } = "";

    public string LotId { get; set; } = "";

    public string Way { get; set; } = ByMix;

    public bool IsByAmounts => Way == ByAmounts;

    public NumberBox Volume { get; } = new(QuantityKind.Volume);

    public NumberBox Percent { get; } = new();

    public NumberBox Water { get; } = new(QuantityKind.Volume);

    public NumberBox Concentrate { get; } = new(QuantityKind.Volume);

    public string FilledAt { get; set; } = "";

    public string OverrideReason { get; set; } = "";

    /// <summary>Null while volume and concentration are not both typed and possible.</summary>
    public FreshMixRecipe? Recipe(UnitSystem units, decimal measurableLitres) =>
        Volume.Value(units) is { } volume && Percent.Value(units) is { } percent && volume >= measurableLitres && volume <= 100_000 && percent is >= 0 and <= 100
            ? FreshMix.Plan((double)volume, (double)percent, (double)measurableLitres)
            : null;
}
