using ShopFluids.Calculations.Uncertainties;

namespace ShopFluids.Calculations.Balances;

/// <summary>Fluid that was knowingly put into a sump or taken out of it.</summary>
public sealed record Movement
{
    private Movement(double day, double sign, Estimate litres, Estimate concentrationPercent) =>
        (Day, Sign, Litres, ConcentrationPercent) = (day, sign, litres, concentrationPercent);

    /// <summary>When, in days from the same start as the readings. At the very time of a reading it counts as made after it.</summary>
    public double Day { get; }

    /// <summary>How much, L, with its uncertainty.</summary>
    public Estimate Litres { get; }

    /// <summary>Its concentration, % v/v: 0 for water, 100 for concentrate.</summary>
    public Estimate ConcentrationPercent { get; }

    /// <summary>Whether it was put in; otherwise it was taken out.</summary>
    public bool IsAddition => Sign > 0;

    internal double Sign { get; }

    /// <summary>Water, premix or concentrate that was put in.</summary>
    /// <param name="day">When, −1 000 000 to 1 000 000 days.</param>
    /// <param name="litres">How much, 0 to 1 000 000 L.</param>
    /// <param name="concentrationPercent">Its concentration, 0 to 100 % v/v.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public static Movement Addition(double day, Estimate litres, Estimate concentrationPercent) =>
        new(Amounts.Day(day), 1, Amounts.Litres(litres), Amounts.Percent(concentrationPercent));

    /// <summary>Fluid that was taken out.</summary>
    /// <param name="day">When, −1 000 000 to 1 000 000 days.</param>
    /// <param name="litres">How much, 0 to 1 000 000 L.</param>
    /// <param name="concentrationPercent">Its concentration, 0 to 100 % v/v.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public static Movement Removal(double day, Estimate litres, Estimate concentrationPercent) =>
        new(Amounts.Day(day), -1, Amounts.Litres(litres), Amounts.Percent(concentrationPercent));
}
