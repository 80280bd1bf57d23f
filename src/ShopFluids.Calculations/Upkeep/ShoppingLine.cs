namespace ShopFluids.Calculations.Upkeep;

/// <summary>One article held against the stores.</summary>
/// <param name="NeededLitres">What the plan needs, L.</param>
/// <param name="InStoreLitres">What is in the stores and may be used, L.</param>
/// <param name="ShortLitres">What is missing, L; 0 where the stores are enough.</param>
/// <param name="Packages">Whole packages to buy.</param>
/// <param name="LeftLitres">What is left in the stores afterwards, L.</param>
public sealed record ShoppingLine(double NeededLitres, double InStoreLitres, double ShortLitres, int Packages, double LeftLitres)
{
    // A sum of measured amounts may pass a whole package by its last digit; no one buys a drum for that.
    private const double Rounding = 1e-9;

    /// <summary>What to buy.</summary>
    /// <param name="neededLitres">0 to 1 000 000 L.</param>
    /// <param name="inStoreLitres">Usable, not expired, not in quarantine; 0 to 1 000 000 L.</param>
    /// <param name="packageLitres">What one package holds, 0.01 to 100 000 L.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static ShoppingLine For(double neededLitres, double inStoreLitres, double packageLitres)
    {
        Require.Between(neededLitres, 0, 1_000_000, "L");
        Require.Between(inStoreLitres, 0, 1_000_000, "L");
        Require.Between(packageLitres, 0.01, 100_000, "L");
        var missing = Math.Max(0, neededLitres - inStoreLitres);
        var packages = (int)Math.Ceiling((missing / packageLitres) - Rounding);
        return new(neededLitres, inStoreLitres, missing, packages, Math.Max(0, inStoreLitres + (packages * packageLitres) - neededLitres));
    }
}
