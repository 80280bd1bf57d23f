using ShopFluids.Calculations.Balances;
using ShopFluids.Calculations.Uncertainties;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Pages.Sumps;

/// <summary>One loss of a charge, each figure with its give-or-take.</summary>
/// <param name="PerHour">Null where the running hours are not known.</param>
internal sealed record LossesRow(string Name, string PerDay, string? PerHour, string InAll)
{
    public static IReadOnlyList<LossesRow> Of(ChargeBalance balance, ShopFormat format) =>
    [
        Row(Texts.Losses_Evaporation, balance.EvaporationLitres, balance, format),
        Row(Texts.Losses_CarryOff, balance.CarryOffLitres, balance, format),
        Row(Texts.Losses_Consumption, balance.VolumeLostLitres, balance, format),
        Row(Texts.Losses_Concentrate, balance.ConcentrateLostLitres, balance, format),
    ];

    private static LossesRow Row(string name, Estimate total, ChargeBalance balance, ShopFormat format) =>
        new(name, Rate(total, balance.Days, format), balance.RunningHours is { } hours ? Rate(total, hours, format) : null, Write(total, format));

    private static string Rate(Estimate total, double time, ShopFormat format) => Write(new(total.Value / time, total.ExpandedUncertainty / time), format);

    private static string Write(Estimate litres, ShopFormat format)
    {
        // Small rates need more decimals to tell them from nothing.
        var (isSmall, decimals) = (Math.Abs(litres.Value) < 1, Math.Abs(litres.Value) < 0.1 ? 3 : 2);
        string Number(double value) => isSmall ? format.Number(format.Units == UnitSystem.UsCustomary ? Calculations.Volumes.VolumeUnits.UsGallonsFromLitres(value) : value, decimals) : format.VolumeNumber(value);
        return $"{Number(litres.Value)} ± {Number(litres.ExpandedUncertainty)} {format.VolumeUnit}";
    }
}
