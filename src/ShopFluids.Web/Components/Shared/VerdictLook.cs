using ShopFluids.Rules;

namespace ShopFluids.Web.Components.Shared;

/// <summary>The shape and the colour of a verdict; both always stand beside its word.</summary>
public static class VerdictLook
{
    /// <summary>The symbol of the sprite.</summary>
    /// <param name="isLate">The test is late: the hourglass takes the place of the ring, because nobody knows any more.</param>
    public static string Symbol(Verdict verdict, Direction direction, bool isLate) => (verdict, direction, isLate) switch
    {
        (Verdict.Action, Direction.High, _) => "act-hi",
        (Verdict.Action, Direction.Low, _) => "act-lo",
        (Verdict.Action, _, _) => "act",
        (_, _, true) => "late",
        (Verdict.Warning, Direction.Low, _) => "warn-lo",
        (Verdict.Warning, _, _) => "warn-hi",
        (Verdict.InRange, _, _) => "ok",
        _ => "none",
    };

    /// <summary>The class of the style sheet.</summary>
    public static string CssClass(Verdict verdict, bool isLate) => (verdict, isLate) switch
    {
        (Verdict.Action, _) => "act",
        (_, true) => "late",
        (Verdict.Warning, _) => "warn",
        (Verdict.InRange, _) => "ok",
        _ => "none",
    };
}
