using ShopFluids.Core.DemoData.Commands;
using ShopFluids.Core.DemoData.Seed;

namespace ShopFluids.Core.DemoData.Generated;

/// <summary>What goes wrong at a sump now and then, for some weeks: the reason why a generated shop has flags.</summary>
internal sealed class GeneratedTroubles(DemoChance chance)
{
    /// <summary>About two a year.</summary>
    private const double BeginsOnADay = 1.0 / 180;

    private static readonly (ConditionKind Kind, double Value)[] Kinds =
    [
        (ConditionKind.Evaporation, 3.5),
        (ConditionKind.CarryOff, 4),
        (ConditionKind.PhFall, 15),
        (ConditionKind.PlainWater, 1),
        (ConditionKind.TopUp, 0.2),
    ];

    private (ConditionKind Kind, double Value) _trouble;
    private int _daysLeft;

    /// <summary>A day begins.</summary>
    public void Live()
    {
        if (_daysLeft > 0)
        {
            _daysLeft--;
        }
        else if (chance.Happens(BeginsOnADay))
        {
            _trouble = Kinds[(int)chance.Between(0, Kinds.Length)];
            _daysLeft = (int)chance.Between(15, 60);
        }
    }

    public double Condition(ConditionKind kind, double otherwise) => _daysLeft > 0 && _trouble.Kind == kind ? _trouble.Value : otherwise;
}
