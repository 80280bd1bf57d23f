namespace ShopFluids.Core.CleanOuts;

/// <summary>How far a clean-out has come.</summary>
internal static class CleanOutProgress
{
    /// <summary>The first open step before one; null when its turn has come.</summary>
    public static CleanOutStepKind? MissingBefore(CleanOutStepKind kind, IReadOnlyList<CleanOutStep> done) =>
        First(done, k => k < kind);

    /// <summary>The first open step; null when only the first reading is missing.</summary>
    public static CleanOutStepKind? Missing(IReadOnlyList<CleanOutStep> done) => First(done, _ => true);

    private static CleanOutStepKind? First(IReadOnlyList<CleanOutStep> done, Func<CleanOutStepKind, bool> isMeant)
    {
        var kinds = done.Select(s => s.Kind).ToHashSet();
        var choice = done.FirstOrDefault(s => s.Kind == CleanOutStepKind.Plan)?.Noted.Choice;
        return CleanOutSteps.Of(choice, kinds).Where(k => isMeant(k) && !kinds.Contains(k)).Select(k => (CleanOutStepKind?)k).FirstOrDefault();
    }
}
