using System.Globalization;

namespace ShopFluids.Web.Components.Shared;

/// <summary>Numbers as a drawing wants them, whatever the culture.</summary>
public static class Svg
{
    public static string Number(double value) => Math.Round(value, 1, MidpointRounding.AwayFromZero).ToString(CultureInfo.InvariantCulture);
}
