using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Shipped;

namespace ShopFluids.Rules.Tests.SimulatedShop;

/// <summary>
/// A sump of <see cref="Some.Sump"/> for two years: 300 L at 6.5 %, read every week and topped up by the recipe that the rules give. A week takes 3 to 6 %
/// of its water and 1 to 3 % of its mix. Standard deviations of what is read: concentration 0.15 %, pH 0.05, level 2 mm, oil cover 2 %,
/// slide a quarter of a decade, in steps of a half. What is poured is off by 5 %. The physics is its own, and shares nothing with the rules.
/// </summary>
internal sealed class SimulatedSump
{
    public const int Weeks = 104;

    private const double Full = 300;
    private const double Start = 6.5;
    private const double Percent = 0.15;
    private const double Ph = 0.05;
    private const double Millimetres = 2;

    // The effect of a fault shows when it is twice the standard deviation of a difference of two readings.
    private static readonly double TwoOfADifference = 2 * Math.Sqrt(2);

    private readonly Random _random;
    private readonly Trouble _trouble;
    private readonly int _onset;
    private readonly bool _isTitrated;
    private readonly double _evaporation;
    private readonly double _carryOff;
    private readonly Simulator _rules = new(
        [.. ShippedLimits.Default(5m, 8m).Select(l => l.Limits), CommonPractice.Level(300m, 80m).Limits],
        [Some.Step(parameters: [ParameterCodes.Concentration, ParameterCodes.Ph, ParameterCodes.Level], anchor: new(2026, 3, 4))],
        Some.Calendar());

    private double _litres = Full;
    private double _product = Full * Start / 100;
    private double _ph = 9.0;
    private double _wander;
    private double _oil;
    private double _bacteria = 2;
    private double _lostToFault;

    public SimulatedSump(int seed, Trouble trouble, int onset)
    {
        (_random, _trouble, _onset) = (new(seed), trouble, onset);
        (_evaporation, _carryOff) = (Between(0.03, 0.06), Between(0.01, 0.03));
        // Without titration nobody can tell that a refractometer is off.
        _isTitrated = seed % 2 == 0 || trouble == Trouble.DriftingRefractometer;
    }

    /// <summary>Flags that the two years brought, but for limits that were truly crossed.</summary>
    public List<(int Week, string Rule, string Parameter)> Raised { get; } = [];

    /// <summary>The week from which the fault could be told from noise; null without a fault.</summary>
    public int? Distinguishable { get; private set; }

    /// <summary>Whether a reading tells of the fault at all: a refractometer that is off shows beside a titration only.</summary>
    public bool Tells(int week) => _trouble != Trouble.DriftingRefractometer || week % 4 == 0;

    public SimulatedSump Run()
    {
        for (var week = 1; week <= Weeks; week++)
        {
            Week(week);
            if (_trouble == Trouble.MissedRounds && week >= _onset)
            {
                Distinguishable ??= week;
                Clock(week);
                continue;
            }

            Visit(week);
        }

        return this;
    }

    private bool IsOn(int week) => _trouble != Trouble.None && week > _onset;

    private void Week(int week)
    {
        var isStanding = _trouble == Trouble.Bacteria && week > _onset - 2 && week <= _onset;
        var evaporated = Full * _evaporation * Between(0.85, 1.15) * (isStanding ? 0.2 : 1);
        if (IsOn(week) && _trouble == Trouble.Evaporation)
        {
            _lostToFault += 3 * evaporated;
            evaporated *= 4;
        }

        var carried = isStanding ? 0 : Full * _carryOff * Between(0.7, 1.3);
        _litres = Math.Max(40, _litres - evaporated);
        carried = Math.Min(carried, _litres - 30);
        (_product, _litres) = (_product * (1 - (carried / _litres)), _litres - carried);
        if (IsOn(week) && _trouble == Trouble.Dilution)
        {
            var water = Math.Min(35, 395 - _litres);
            (_litres, _lostToFault) = (_litres + water, _lostToFault + water);
        }

        _wander = (0.9 * _wander) + Normal(0.02);
        _oil = Math.Clamp(_oil + Between(0, 2), 0, 100);
        _bacteria = Math.Clamp(_bacteria + Normal(0.1), 2, 2.7);
        if (IsOn(week))
        {
            Suffer(week - _onset);
        }

        ShowFrom(week);
    }

    private void Suffer(int weeks)
    {
        if (_trouble == Trouble.Bacteria)
        {
            _bacteria = Math.Min(7.5, 3 + (0.8 * weeks));
            _ph = 9.0 - Math.Min(1.2, 0.18 * weeks);
        }

        if (_trouble == Trouble.OilLeak)
        {
            _oil = Math.Min(100, 8 * weeks);
        }
    }

    private void ShowFrom(int week)
    {
        var shows = IsOn(week) && _trouble switch
        {
            Trouble.Dilution or Trouble.Evaporation => _lostToFault > TwoOfADifference * Millimetres,
            Trouble.Bacteria => 9.0 - _ph > TwoOfADifference * Ph,
            Trouble.OilLeak => _oil > 10,
            Trouble.DriftingRefractometer => Offset(week) > TwoOfADifference * Percent,
            _ => false,
        };
        Distinguishable ??= shows ? week : null;
    }

    private double Offset(int week) => _trouble switch
    {
        Trouble.DriftingRefractometer when IsOn(week) => 0.1 * (week - _onset),

        // A third of a percent is read as coolant where oil covers half of the surface.
        Trouble.OilLeak => 0.66 * _oil / 100,
        _ => 0,
    };

    private void Visit(int week)
    {
        var truth = 100 * _product / _litres;
        var smell = _bacteria switch { > 6 => 3, > 5 => 2, > 4 => 1, _ => 0 };
        var measured = new List<MeasurementFacts>
        {
            new(ParameterCodes.Concentration, MethodCodes.Refractometer, Round(truth + Offset(week) + Normal(Percent), 1), 0.3m),
            new(ParameterCodes.Ph, "", Round(_ph + _wander + Normal(Ph), 2), 0.1m),
            new(ParameterCodes.Level, "", Round(Math.Clamp(_litres + Normal(Millimetres), 0, 400), 0), 2m),
            new(ParameterCodes.Odour, "", smell, 0),
            new(ParameterCodes.TrampOil, "", Round(Math.Clamp(_oil + Normal(2), 0, 100), 0), 0),
        };
        if (week % 4 == 0)
        {
            measured.Add(new(ParameterCodes.Bacteria, "", Math.Round((decimal)(_bacteria + Normal(0.25)) * 2) / 2, 0));
            if (_isTitrated)
            {
                measured.Add(new(ParameterCodes.Concentration, MethodCodes.Titration, Round(truth + Normal(Percent), 1), 0.3m));
            }
        }

        var at = At(week);
        _rules.Tick(at);
        var evaluation = _rules.Apply(new(Some.Id(week), at, measured));
        Raised.AddRange(evaluation.Raised.Where(f => !IsTrue(f, truth)).Select(f => (week, f.Rule, f.Parameter)));
        Work(evaluation, at);
    }

    // The doors are locked on one day a week only, so a visit that fails is late by the week's end.
    private void Clock(int week)
    {
        var before = _rules.Flags.Count;
        _rules.Tick(At(week).AddDays(2));
        Raised.AddRange(_rules.Flags.Skip(before).Select(f => (week, f.Rule, f.Parameter)));
    }

    private void Work(Evaluation evaluation, DateTime at)
    {
        if (evaluation.Recipe is { } recipe && recipe.WaterLitres + recipe.ConcentrateLitres > 0)
        {
            var (water, concentrate) = ((double)recipe.WaterLitres, (double)recipe.ConcentrateLitres);
            var removed = Math.Min((double)recipe.RemoveLitres, _litres);
            _product *= 1 - (removed / _litres);
            var (poured, strong) = (water * Between(0.95, 1.05), concentrate * Between(0.95, 1.05));
            (_litres, _product) = (Math.Min(399, _litres - removed + poured + strong), _product + strong);
            _rules.Move(new(at.AddMinutes(20), water, concentrate, removed));
        }

        if (_rules.Tasks.Any(t => t.Kind == TaskKind.Skim) && _trouble != Trouble.OilLeak)
        {
            _oil = 0;
        }

        _rules.Finish(t => t.Kind is TaskKind.Skim or TaskKind.Circulate or TaskKind.Inspect or TaskKind.Adjust or TaskKind.Calibrate);
    }

    // A limit that was truly crossed is no false flag, whatever the sump suffers from; a late test neither.
    private bool IsTrue(RaisedFlag flag, double truth) => _trouble == Trouble.None && flag.Rule == Rules.Limit.LimitRule.Code && flag.Parameter switch
    {
        ParameterCodes.Concentration => truth is < 5 or > 8,
        ParameterCodes.Level => _litres is < 190 or > 311,
        ParameterCodes.TrampOil => _oil > 10,
        _ => false,
    };

    private static DateTime At(int week) => Some.Now.AddDays(7 * week);

    private static decimal Round(double value, int decimals) => decimal.Round((decimal)value, decimals);

    private double Between(double low, double high) => low + ((high - low) * _random.NextDouble());

    private double Normal(double deviation) =>
        deviation * Math.Sqrt(-2 * Math.Log(1 - _random.NextDouble())) * Math.Cos(2 * Math.PI * _random.NextDouble());
}
