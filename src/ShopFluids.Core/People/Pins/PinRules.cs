using ShopFluids.Core.Database;

namespace ShopFluids.Core.People.Pins;

/// <summary>A PIN is not six digits.</summary>
public sealed record NotAPin : Error;

/// <summary>A PIN that is tried first by anybody who wants in.</summary>
public sealed record PinTooEasy : Error;

/// <summary>What a PIN must look like.</summary>
public static class PinRules
{
    public const int Length = 6;

    /// <returns>Null when the PIN may be used.</returns>
    public static Error? Check(string pin)
    {
        ArgumentNullException.ThrowIfNull(pin);
        return pin.Length != Length || !pin.All(char.IsAsciiDigit) ? new NotAPin()
            : IsEasy(pin) ? new PinTooEasy()
            : null;
    }

    // Two digits only (000000, 121212, 111222), a part that comes again (123123, 112233), a ladder in any step that turns or wraps (123456, 654321, 890123, 123321, 135791).
    private static bool IsEasy(string pin) =>
        pin.Distinct().Count() <= 2
        || pin[..3] == pin[3..]
        || IsLadder(pin)
        || (pin[0] == pin[1] && pin[2] == pin[3] && pin[4] == pin[5])
        || (IsLadder(pin[..3]) && pin[..3].SequenceEqual(pin[3..].Reverse()))
        || (IsLadder(pin[..4]) && IsLadder(pin[3..]));

    private static bool IsLadder(string digits)
    {
        var step = Step(digits, 1);
        return Enumerable.Range(1, digits.Length - 1).All(i => Step(digits, i) == step);
    }

    private static int Step(string digits, int place) => (digits[place] - digits[place - 1] + 10) % 10;
}
