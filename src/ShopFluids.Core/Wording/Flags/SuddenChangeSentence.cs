using ShopFluids.Rules.Findings;

namespace ShopFluids.Core.Wording.Flags;

/// <summary>A value that jumped since the last reading.</summary>
internal static class SuddenChangeSentence
{
    private const int MostDecimals = 4;

    public static string Found(Sentences say, string parameter, IReadOnlyDictionary<string, decimal> numbers)
    {
        var (name, value, previous) = (say.Parameter(parameter), numbers[NumberNames.Value], numbers[NumberNames.Previous]);
        var (before, now, usual) = (say.Value(parameter, previous), say.Value(parameter, value), say.Value(parameter, numbers[NumberNames.ChangeLimit]));
        return numbers[NumberNames.ExpectedChange] == 0
            ? say.Format.Say(Texts.Flag_SuddenChange, name, before, now, usual)
            : say.Format.Say(Texts.Flag_SuddenChangeExpected, name, before, now, say.Value(parameter, Expected(numbers)), usual);
    }

    public static string Clears(Sentences say, string parameter, IReadOnlyDictionary<string, decimal> numbers) =>
        say.Format.Say(Texts.Flag_SuddenChangeClears, say.Value(parameter, Expected(numbers)));

    // To as many decimals as were read, so that it is not shown with digits that mean nothing.
    private static decimal Expected(IReadOnlyDictionary<string, decimal> numbers)
    {
        var (value, previous) = (numbers[NumberNames.Value], numbers[NumberNames.Previous]);
        var decimals = 1;
        while (decimals < MostDecimals && (decimal.Round(value, decimals) != value || decimal.Round(previous, decimals) != previous))
        {
            decimals++;
        }

        return decimal.Round(previous + numbers[NumberNames.ExpectedChange], decimals);
    }
}
