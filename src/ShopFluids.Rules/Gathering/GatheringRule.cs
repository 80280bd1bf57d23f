using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Registry;

namespace ShopFluids.Rules.Gathering;

/// <summary>
/// How far ahead work is looked at that can be done in the same visit. It raises nothing and moves no due date: it only says what goes along.
/// Switched off, only what is due on the same day is gathered.
/// </summary>
public sealed class GatheringRule : IRule
{
    /// <summary>The rule's code.</summary>
    public const string RuleCode = "gathering";

    /// <summary>Number: how many open shop days ahead. Two, so that a Friday's visit takes what Tuesday would ask for; common practice, no source.</summary>
    public const string WindowShopDays = "windowShopDays";

    /// <inheritdoc/>
    public string Code => RuleCode;

    /// <inheritdoc/>
    public int Version => 1;

    /// <inheritdoc/>
    public IReadOnlyList<RuleNumber> Numbers { get; } = [new(WindowShopDays, 2, 0, 10) { IsWhole = true }];

    /// <inheritdoc/>
    public bool AsksForASecondLook => false;

    /// <inheritdoc/>
    public IEnumerable<RuleOpinion> Check(RuleCase reading)
    {
        ArgumentNullException.ThrowIfNull(reading);
        return [];
    }

    /// <inheritdoc/>
    public IReadOnlyList<TaskKind> WorkFor(FlagKey flag, bool isConfirmed) => [];

    /// <summary>The window in force at a sump, open shop days, 0 to 10.</summary>
    /// <param name="tunings">How the rules are set for the sump.</param>
    public int WindowOf(IReadOnlyDictionary<string, RuleTuning> tunings)
    {
        ArgumentNullException.ThrowIfNull(tunings);
        var set = TunedRule.Of(this, tunings);
        return set.IsOn ? (int)set.Number(WindowShopDays) : 0;
    }
}
