namespace ShopFluids.EndToEnd.Tests.Walks;

/// <summary>One random walk, drawn whole from its seed before it begins: nothing that happens on the way changes what comes next.</summary>
/// <param name="Steps">What happens, with a number that decides what the event leaves open.</param>
/// <param name="ThrowsDraftsAway">At the end, what was typed and not saved is thrown away, and otherwise saved.</param>
internal sealed record WalkPlan(int Seed, IReadOnlyList<WalkStep> Steps, bool ThrowsDraftsAway)
{
    private const int FewestSteps = 4;
    private const int MostSteps = 12;

    // What hands do most comes most often.
    private static readonly WalkEvent[] Urn = [.. Enum.GetValues<WalkEvent>(), WalkEvent.Type, WalkEvent.Type, WalkEvent.Save, WalkEvent.Save, WalkEvent.GoOnline];

    public static WalkPlan Of(int seed)
    {
        var chance = new Random(seed);
        var steps = Enumerable.Range(0, chance.Next(FewestSteps, MostSteps + 1)).Select(_ => new WalkStep(Urn[chance.Next(Urn.Length)], chance.Next(1000))).ToList();
        return new WalkPlan(seed, steps, chance.Next(2) == 0);
    }

    /// <summary>The same walk, in which the server is gone in the middle.</summary>
    public WalkPlan WithoutServer()
    {
        var steps = Steps.ToList();
        steps[steps.Count / 2] = new WalkStep(WalkEvent.ServerIsGone, 0);
        return this with { Steps = steps };
    }
}

/// <param name="Choice">0 to 999.</param>
internal sealed record WalkStep(WalkEvent Event, int Choice);
