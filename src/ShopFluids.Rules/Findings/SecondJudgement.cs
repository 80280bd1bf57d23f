using ShopFluids.Calculations.Mixing;

namespace ShopFluids.Rules.Findings;

/// <summary>What the rules make of a stored reading when it is judged again, by other limits or settings than then.</summary>
/// <param name="Raised">New flags.</param>
/// <param name="Cleared">Open flags that end.</param>
/// <param name="Recipe">The top-up recipe where volume and concentration are known; otherwise null.</param>
/// <param name="NewTasks">Work for the new flags, and work that another flag takes over.</param>
/// <param name="WithdrawnTasks">Open work whose flag ends.</param>
public sealed record SecondJudgement(
    IReadOnlyList<RaisedFlag> Raised,
    IReadOnlyList<Guid> Cleared,
    TopUpRecipe? Recipe,
    IReadOnlyList<ProposedTask> NewTasks,
    IReadOnlyList<Guid> WithdrawnTasks);
