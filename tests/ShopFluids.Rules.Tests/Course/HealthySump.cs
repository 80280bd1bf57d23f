namespace ShopFluids.Rules.Tests.Course;

/// <summary>How somebody tops up.</summary>
public enum TopUpHabit
{
    /// <summary>After the weekly reading, as strong as brings the sump to its target by what was read.</summary>
    ByRecipe,

    /// <summary>After the weekly reading, always the premix that suits this sump in the long run.</summary>
    SamePremix,

    /// <summary>The same premix, but on any two days of the week.</summary>
    AnyDay,

    /// <summary>Like <see cref="SamePremix"/>, but only every fourth week.</summary>
    Monthly,
}

/// <summary>
/// A sump of 300 L at 6 % and pH 9.2 with which nothing is wrong. A week takes 3 to 8 % of its water and 1 to 3 % of its mix; what is put in is off by
/// a few percent, and so is what is written down. Refractometer noise 0.15 %, pH noise 0.05, level noise 1 mm (standard deviations).
/// </summary>
internal sealed class HealthySump
{
    private const double Full = 300;
    private const double Target = 6;
    private readonly Random _random;
    private readonly TopUpHabit _habit;
    private readonly double _evaporation;
    private readonly double _carryOff;
    private double _litres = Full;
    private double _product = Full * Target / 100;
    private double _ph;

    public HealthySump(int seed, TopUpHabit habit)
    {
        (_random, _habit) = (new(seed), habit);
        (_evaporation, _carryOff) = (Between(0.035, 0.07), Between(0.01, 0.03));
        _ph = Between(-0.05, 0.05);
    }

    /// <summary>How fast the pH falls, a week.</summary>
    public double PhFall { get; set; }

    /// <summary>How much too strong the usual premix is: 1 for right.</summary>
    public double PremixFactor { get; set; } = 1;

    /// <summary>The last concentration and pH that were read.</summary>
    public (decimal Percent, decimal Ph) LastRead { get; private set; } = (6, 9.2m);

    /// <summary>Something gets in: the concentration jumps, % v/v, and the pH.</summary>
    public void Upset(double percent, double ph) => (_product, _ph) = (_product + (_litres * percent / 100), _ph + ph);

    /// <summary>Runs for some weeks, with a reading at the end of each.</summary>
    public void Run(Charge charge, int weeks)
    {
        for (var week = 1; week <= weeks; week++)
        {
            Days(charge, 2);
            TopUp(charge, _habit == TopUpHabit.AnyDay && _random.Next(2) == 0);
            Days(charge, 3);
            TopUp(charge, _habit == TopUpHabit.AnyDay);
            Days(charge, 2);
            var percent = Read(charge);
            charge.After(0.02);
            TopUp(charge, _habit is TopUpHabit.ByRecipe or TopUpHabit.SamePremix || (_habit == TopUpHabit.Monthly && week % 4 == 0), percent);
            charge.After(-0.02);
        }
    }

    private void Days(Charge charge, int days)
    {
        for (var day = 1; day <= days; day++)
        {
            Lose();
            charge.After(1);
        }
    }

    private void Lose()
    {
        const double week = 1 / 7.0;
        _litres -= Full * _evaporation * week * Between(0.85, 1.15);
        var carried = Full * _carryOff * week * Between(0.7, 1.3);
        (_product, _litres) = (_product * (1 - (carried / _litres)), _litres - carried);
        _ph += (PhFall > 0 ? -PhFall * week : -0.02 * _ph) + Normal(0.008);
    }

    private double Read(Charge charge)
    {
        var percent = (decimal)Math.Round((100 * _product / _litres) + Normal(0.15), 1);
        LastRead = (percent, (decimal)Math.Round(9.2 + _ph + Normal(0.05), 1));
        charge.Reads(
            new Facts.MeasurementFacts(ParameterCodes.Concentration, MethodCodes.Refractometer, percent, 0.35m),
            new(ParameterCodes.Ph, "", LastRead.Ph, 0.12m),
            new(ParameterCodes.Level, "", (decimal)Math.Round(Math.Clamp(_litres + Normal(1), 0, 400)), 2m));
        return (double)percent;
    }

    private void TopUp(Charge charge, bool isDone, double? percent = null)
    {
        var litres = Full - _litres;
        if (!isDone || litres < 1)
        {
            return;
        }

        var premix = _habit == TopUpHabit.ByRecipe && percent is { } read
            ? Math.Clamp(((Full * Target) - (_litres * read)) / litres, 0, 12)
            : PremixFactor * Target * _carryOff / (_carryOff + _evaporation);
        var (said, concentrate) = (litres * Between(0.95, 1.05), litres * premix / 100);
        charge.Moves(said * (1 - (premix / 100)), said * premix / 100);
        _litres += litres;
        _product += concentrate * Between(0.9, 1.1);
    }

    private double Between(double low, double high) => low + ((high - low) * _random.NextDouble());

    private double Normal(double deviation) =>
        deviation * Math.Sqrt(-2 * Math.Log(1 - _random.NextDouble())) * Math.Cos(2 * Math.PI * _random.NextDouble());
}
