namespace ShopFluids.Core.Care;

/// <summary>What is needed to do the work of a step, in the words of the shop; it is stored with the step. Immutable.</summary>
/// <param name="What">What exactly is done, in place of the kind's own words; empty for those.</param>
/// <param name="Filter">Which filter, bag or paper; empty where it is not said.</param>
/// <param name="Steps">How it is done, in order; may be empty.</param>
public sealed record StepNeeds(string What, string Filter, IReadOnlyList<string> Steps)
{
    public const int MaximumWhatLength = 80;
    public const int MaximumFilterLength = 120;
    public const int MaximumSteps = 12;
    public const int MaximumStepLength = 200;

    public static StepNeeds None { get; } = new("", "", []);

    public bool IsEmpty => What.Length == 0 && Filter.Length == 0 && Steps.Count == 0;
}
