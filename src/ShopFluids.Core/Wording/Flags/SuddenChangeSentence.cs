using ShopFluids.Rules.Findings;

namespace ShopFluids.Core.Wording.Flags;

/// <summary>A value that jumped since the last reading.</summary>
internal static class SuddenChangeSentence
{
    public static string Found(Sentences say, string parameter, IReadOnlyDictionary<string, decimal> numbers)
    {
        var (name, value, previous) = (say.Parameter(parameter), numbers[NumberNames.Value], numbers[NumberNames.Previous]);
        var (before, now, usual) = (say.Value(parameter, previous), say.Value(parameter, value), say.Value(parameter, numbers[NumberNames.ChangeLimit]));
        var expected = say.Value(parameter, Expected(numbers));
        return expected == before
            ? say.Format.Say(Texts.Flag_SuddenChange, name, before, now, usual)
            : say.Format.Say(Texts.Flag_SuddenChangeExpected, name, before, now, expected, usual);
    }

    public static string Clears(Sentences say, string parameter, IReadOnlyDictionary<string, decimal> numbers) =>
        say.Format.Say(Texts.Flag_SuddenChangeClears, say.Value(parameter, Expected(numbers)));

    // To a tenth more than anybody reads it, so that it is not shown with digits that mean nothing.
    private static decimal Expected(IReadOnlyDictionary<string, decimal> numbers) =>
        decimal.Round(numbers[NumberNames.Previous] + numbers[NumberNames.ExpectedChange], 1);
}
