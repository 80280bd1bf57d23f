namespace ShopFluids.Web.Pages.Setup.Overview;

/// <summary>One part of the set-up.</summary>
/// <param name="There">What is there, in a sentence.</param>
/// <param name="Missing">What is missing; null when it can be left as it is.</param>
/// <param name="Ways">Where to go from here; the first is the usual one.</param>
public sealed record SetupStep(string Title, string There, string? Missing, IReadOnlyList<SetupWay> Ways);

public sealed record SetupWay(string Text, string Address);
