namespace ShopFluids.Calculations.Concentrations;

/// <summary>
/// International temperature correction table for refractometer readings in % sucrose, reference 20 °C (ICUMSA; AOAC 932.14C):
/// what is added to the reading. From memory; the 10 and 15 % columns at 10, 15, 16 and 17 °C agree within 0.015 with
/// OIV-MA-AS2-02 Table I, which was read. Rows for 31 to 40 °C are left out because no trusted copy was at hand.
/// </summary>
internal static class SucroseTemperatureTable
{
    public const double FirstCelsius = 10;
    public const double LastCelsius = 30;
    private const double ColumnStepBrix = 5;
    private const double LastColumnBrix = 15;

    // One row per degree from 10 to 30 °C; columns at 0, 5, 10 and 15 % sucrose.
    private static readonly double[][] Rows =
    [
        [-0.50, -0.54, -0.58, -0.61],
        [-0.46, -0.49, -0.53, -0.55],
        [-0.42, -0.45, -0.48, -0.50],
        [-0.37, -0.40, -0.42, -0.44],
        [-0.33, -0.35, -0.37, -0.39],
        [-0.27, -0.29, -0.31, -0.33],
        [-0.22, -0.24, -0.25, -0.26],
        [-0.17, -0.18, -0.19, -0.20],
        [-0.12, -0.13, -0.13, -0.14],
        [-0.06, -0.06, -0.06, -0.07],
        [0.00, 0.00, 0.00, 0.00],
        [0.06, 0.07, 0.07, 0.07],
        [0.13, 0.13, 0.14, 0.14],
        [0.19, 0.20, 0.21, 0.22],
        [0.26, 0.27, 0.28, 0.29],
        [0.33, 0.35, 0.36, 0.37],
        [0.40, 0.42, 0.43, 0.44],
        [0.48, 0.50, 0.52, 0.53],
        [0.56, 0.57, 0.60, 0.61],
        [0.64, 0.66, 0.68, 0.69],
        [0.72, 0.74, 0.77, 0.78],
    ];

    /// <summary>The correction in °Bx and its slopes, by bilinear interpolation; above 15 °Bx the 15 % column is held. Arguments are checked by the caller.</summary>
    public static (double Correction, double PerBrix, double PerCelsius) At(double brix, double celsius)
    {
        var row = Math.Min((int)(celsius - FirstCelsius), Rows.Length - 2);
        var column = Math.Min((int)(brix / ColumnStepBrix), Rows[0].Length - 2);
        var down = celsius - FirstCelsius - row;
        var right = Math.Min(brix / ColumnStepBrix - column, 1);

        var (upperLeft, upperRight) = (Rows[row][column], Rows[row][column + 1]);
        var (lowerLeft, lowerRight) = (Rows[row + 1][column], Rows[row + 1][column + 1]);
        var left = double.Lerp(upperLeft, lowerLeft, down);
        var rightSide = double.Lerp(upperRight, lowerRight, down);
        var perBrix = brix > LastColumnBrix ? 0 : (rightSide - left) / ColumnStepBrix;
        var perCelsius = double.Lerp(lowerLeft - upperLeft, lowerRight - upperRight, right);
        return (double.Lerp(left, rightSide, right), perBrix, perCelsius);
    }
}
