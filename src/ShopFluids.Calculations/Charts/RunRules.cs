using System.Runtime.InteropServices;
using ShopFluids.Calculations.Statistics;

namespace ShopFluids.Calculations.Charts;

/// <summary>A pattern that was found. There is no use for the default value.</summary>
/// <param name="Place">Place of the reading that completes the pattern, counted from 0.</param>
/// <param name="Rule">Which pattern.</param>
[StructLayout(LayoutKind.Auto)]
public readonly record struct RunSignal(int Place, RunRule Rule);

/// <summary>
/// Looks for <see cref="RunRule"/> patterns. Each rule more is more false alarms: one beyond three sigma alone comes every 370 readings by
/// chance, the four Western Electric rules together every 92 (Champ and Woodall, Technometrics 29 (1987) 393, from memory).
/// </summary>
public static class RunRules
{
    /// <summary>The eight of Nelson.</summary>
    public static IReadOnlyList<RunRule> Nelson { get; } =
    [
        RunRule.OneBeyondThreeSigma, RunRule.NineOnOneSide, RunRule.SixRisingOrFalling, RunRule.FourteenUpAndDown,
        RunRule.TwoOfThreeBeyondTwoSigma, RunRule.FourOfFiveBeyondOneSigma, RunRule.FifteenWithinOneSigma, RunRule.EightBeyondOneSigma,
    ];

    /// <summary>The four of Western Electric.</summary>
    public static IReadOnlyList<RunRule> WesternElectric { get; } =
        [RunRule.OneBeyondThreeSigma, RunRule.TwoOfThreeBeyondTwoSigma, RunRule.FourOfFiveBeyondOneSigma, RunRule.EightOnOneSide];

    /// <summary>All places at which a pattern is complete, in order of place, then of rule as given. A pattern that lasts is told at each of its readings.</summary>
    /// <param name="values">1 to 100 000 in order of time, −10¹² to 10¹².</param>
    /// <param name="centre">−10¹² to 10¹².</param>
    /// <param name="sigma">0 to 10¹².</param>
    /// <param name="rules">At least one and at most nine of the named rules.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range, or a rule is none of the named ones.</exception>
    public static IReadOnlyList<RunSignal> Find(IReadOnlyList<double> values, double centre, double sigma, IReadOnlyList<RunRule> rules)
    {
        var checkedValues = Sample.Checked(values, 1);
        Require.Between(centre, -Sample.Largest, Sample.Largest, "in any unit");
        Require.Between(sigma, 0, Sample.Largest, "in any unit");
        ArgumentNullException.ThrowIfNull(rules);
        Require.Between(rules.Count, 1, 9, "rules", nameof(rules));
        foreach (var rule in rules)
        {
            Require.Between((double)rule, 1, 9, "(the named rules)", nameof(rules));
        }

        var signals = new List<RunSignal>();
        var runs = new Runs(centre, sigma);
        for (var i = 0; i < checkedValues.Length; i++)
        {
            runs.Add(checkedValues[i]);
            foreach (var rule in rules)
            {
                if (runs.Completes(rule))
                {
                    signals.Add(new(i, rule));
                }
            }
        }

        return signals;
    }

    // The lengths of all runs that end at the last reading.
    private sealed class Runs(double centre, double sigma)
    {
        // Zones of the last five readings, the newest first: whole sigmas beyond the centre, with the sign of the side; 0 within one sigma.
        private readonly int[] _zones = new int[5];
        private double _last = double.NaN;
        private int _side;
        private int _direction;
        private int _onOneSide;
        private int _oneWay;
        private int _turning;
        private int _near;
        private int _far;

        public void Add(double value)
        {
            Array.Copy(_zones, 0, _zones, 1, _zones.Length - 1);
            var distance = Math.Abs(value - centre);
            var side = Math.Sign(value - centre);
            var zone = distance > 3 * sigma ? 3 : distance > 2 * sigma ? 2 : distance > sigma ? 1 : 0;
            _zones[0] = side * zone;
            _onOneSide = side == 0 ? 0 : side == _side ? _onOneSide + 1 : 1;
            _near = distance < sigma ? _near + 1 : 0;
            _far = distance > sigma ? _far + 1 : 0;
            var direction = value.CompareTo(_last) * (double.IsNaN(_last) ? 0 : 1);
            _oneWay = direction == 0 ? 1 : direction == _direction ? _oneWay + 1 : 2;
            _turning = direction == 0 ? 1 : direction == -_direction ? _turning + 1 : 2;
            (_last, _side, _direction) = (value, side, direction);
        }

        public bool Completes(RunRule rule) => rule switch
        {
            RunRule.OneBeyondThreeSigma => Math.Abs(_zones[0]) == 3,
            RunRule.NineOnOneSide => _onOneSide >= 9,
            RunRule.SixRisingOrFalling => _oneWay >= 6,
            RunRule.FourteenUpAndDown => _turning >= 14,
            RunRule.TwoOfThreeBeyondTwoSigma => LastIsOneOf(2, 3, 2),
            RunRule.FourOfFiveBeyondOneSigma => LastIsOneOf(4, 5, 1),
            RunRule.FifteenWithinOneSigma => _near >= 15,
            RunRule.EightBeyondOneSigma => _far >= 8,
            RunRule.EightOnOneSide => _onOneSide >= 8,
            _ => throw new ArgumentOutOfRangeException(nameof(rule), rule, "Accepted are the named rules."),
        };

        private bool LastIsOneOf(int enough, int among, int zone)
        {
            var side = Math.Sign(_zones[0]);
            var count = 0;
            for (var i = 0; i < among; i++)
            {
                count += _zones[i] * side >= zone ? 1 : 0;
            }

            return _zones[0] * side >= zone && count >= enough;
        }
    }
}
