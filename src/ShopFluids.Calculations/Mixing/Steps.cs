namespace ShopFluids.Calculations.Mixing;

/// <summary>
/// Amounts as whole steps of what can be measured. The small slack keeps an amount that is a whole number of steps, but for its last
/// binary digit, from being pushed to the next step.
/// </summary>
internal static class Steps
{
    private const double Slack = 1e-8;

    public static double Nearest(double litres, double step) => Amount(Math.Round(litres / step, MidpointRounding.AwayFromZero), step);

    public static double Down(double litres, double step) => Amount(Math.Floor((litres / step) + Slack), step);

    public static double Up(double litres, double step) => Amount(Math.Ceiling((litres / step) - Slack), step);

    // 3 × 0.1 is 0.30000000000000004; the amount that a person pours is 0.3.
    private static double Amount(double count, double step) => Math.Round(count * step, 10);
}
