namespace ShopFluids.Calculations.Electrodes;

/// <summary>Buffers by which a pH electrode is checked.</summary>
public enum PhBuffer
{
    /// <summary>Technical buffer, nominal 4.00 at 25 °C.</summary>
    Nominal4 = 0,

    /// <summary>Technical buffer, nominal 7.00 at 25 °C.</summary>
    Nominal7 = 1,

    /// <summary>Technical buffer, nominal 10.01 at 25 °C.</summary>
    Nominal10 = 2,

    /// <summary>Primary standard: potassium hydrogen phthalate 0.05 mol/kg.</summary>
    Phthalate = 3,

    /// <summary>Primary standard: equimolar phosphate 0.025 + 0.025 mol/kg.</summary>
    Phosphate = 4,

    /// <summary>Primary standard: borax 0.01 mol/kg.</summary>
    Borax = 5,

    /// <summary>Primary standard: carbonate 0.025 + 0.025 mol/kg.</summary>
    Carbonate = 6,
}

/// <summary>
/// pH of buffers against temperature. Technical buffers as printed in the manual of a pH analyser (read); primary standards after IUPAC
/// 2002 (from memory; JIS Z 8802, which was read, agrees within 0.015). Between entries straight lines. What stands on the bottle goes first.
/// </summary>
public static class PhBuffers
{
    private static readonly (double Celsius, double Nominal4, double Nominal7, double Nominal10)[] Technical =
    [
        (0, 4.00, 7.12, 10.32), (5, 4.00, 7.09, 10.25), (10, 4.00, 7.06, 10.18), (15, 4.00, 7.04, 10.12), (20, 4.00, 7.02, 10.06),
        (25, 4.00, 7.00, 10.01), (30, 4.01, 6.99, 9.97), (35, 4.02, 6.99, 9.93), (40, 4.03, 6.98, 9.89), (45, 4.04, 6.98, 9.86),
        (50, 4.06, 6.97, 9.83),
    ];

    private static readonly (double Celsius, double Phthalate, double Phosphate, double Borax, double Carbonate)[] Primary =
    [
        (0, 4.000, 6.984, 9.464, 10.317), (5, 3.998, 6.951, 9.395, 10.245), (10, 3.997, 6.923, 9.332, 10.179), (15, 3.998, 6.900, 9.276, 10.118),
        (20, 4.000, 6.881, 9.225, 10.062), (25, 4.005, 6.865, 9.180, 10.012), (30, 4.011, 6.853, 9.139, 9.966), (35, 4.018, 6.844, 9.102, 9.926),
        (40, 4.027, 6.838, 9.068, 9.889), (50, 4.050, 6.833, 9.011, 9.828),
    ];

    /// <summary>The buffer's pH at a temperature.</summary>
    /// <param name="buffer">One of the named buffers.</param>
    /// <param name="celsius">0 to 50 °C.</param>
    /// <exception cref="ArgumentOutOfRangeException">The buffer is unknown or the temperature out of range.</exception>
    public static double PhAt(PhBuffer buffer, double celsius)
    {
        Require.Between(celsius, 0, 50, "°C");
        return buffer switch
        {
            PhBuffer.Nominal4 => Interpolate(Technical, row => row.Celsius, row => row.Nominal4, celsius),
            PhBuffer.Nominal7 => Interpolate(Technical, row => row.Celsius, row => row.Nominal7, celsius),
            PhBuffer.Nominal10 => Interpolate(Technical, row => row.Celsius, row => row.Nominal10, celsius),
            PhBuffer.Phthalate => Interpolate(Primary, row => row.Celsius, row => row.Phthalate, celsius),
            PhBuffer.Phosphate => Interpolate(Primary, row => row.Celsius, row => row.Phosphate, celsius),
            PhBuffer.Borax => Interpolate(Primary, row => row.Celsius, row => row.Borax, celsius),
            PhBuffer.Carbonate => Interpolate(Primary, row => row.Celsius, row => row.Carbonate, celsius),
            _ => throw new ArgumentOutOfRangeException(nameof(buffer), buffer, "Accepted are the named buffers."),
        };
    }

    private static double Interpolate<TRow>(TRow[] table, Func<TRow, double> temperature, Func<TRow, double> ph, double celsius)
    {
        var upper = Math.Max(1, Array.FindIndex(table, row => temperature(row) >= celsius));
        var (low, high) = (table[upper - 1], table[upper]);
        return double.Lerp(ph(low), ph(high), (celsius - temperature(low)) / (temperature(high) - temperature(low)));
    }
}
