using ShopFluids.Rules;
using ShopFluids.Rules.Findings;

namespace ShopFluids.Core.Wording.Flags;

/// <summary>A charge that holds more than the record explains.</summary>
internal static class BalanceSentence
{
    public static string Found(Sentences say, Direction direction, IReadOnlyDictionary<string, decimal> numbers)
    {
        var days = say.Format.Number(numbers[NumberNames.Days], 1);
        if (direction == Direction.Low)
        {
            return say.Format.Say(Texts.Flag_BalanceConcentrate, days, say.Format.Volume((double)numbers[NumberNames.GainedConcentrate]));
        }

        var (gained, uncertainty) = (say.Format.Volume((double)numbers[NumberNames.GainedLitres]), say.Format.Volume((double)numbers[NumberNames.GainUncertainty]));
        return numbers.TryGetValue(NumberNames.LostMix, out var lost)
            ? say.Format.Say(Texts.Flag_BalanceWaterForMix, days, gained, uncertainty, say.Format.Volume((double)lost))
            : say.Format.Say(direction == Direction.High ? Texts.Flag_BalanceWater : Texts.Flag_BalanceMix, days, gained, uncertainty);
    }
}
