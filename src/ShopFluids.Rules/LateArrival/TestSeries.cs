using ShopFluids.Rules.Facts;

namespace ShopFluids.Rules.LateArrival;

/// <summary>A task of a test of the plan, open or ended.</summary>
/// <param name="Task">The task.</param>
/// <param name="End">How it ended.</param>
public sealed record TestItem(OpenTask Task, TestEnd End);

/// <summary>How a task of a test ended.</summary>
public enum TestEnd
{
    /// <summary>Not yet.</summary>
    Open,

    /// <summary>A reading of the charge completed it.</summary>
    ByReading,

    /// <summary>In any other way: a person ended it, or a reading of an earlier charge.</summary>
    Otherwise,
}

/// <summary>From which task the series of a test can be reckoned again.</summary>
public static class TestSeries
{
    /// <summary>The first task of each test since the last one that did not end by a reading of the charge.</summary>
    /// <param name="items">The tasks of the tests of the plan.</param>
    public static IReadOnlyList<OpenTask> Firsts(IEnumerable<TestItem> items) =>
        [.. items.GroupBy(i => i.Task.Cause, StringComparer.Ordinal).Select(FirstOf).OfType<OpenTask>().OrderBy(t => t.Cause, StringComparer.Ordinal)];

    private static OpenTask? FirstOf(IEnumerable<TestItem> series)
    {
        OpenTask? first = null;
        foreach (var item in series.OrderBy(i => i.Task.DueAt))
        {
            first = item.End == TestEnd.Otherwise ? null : first ?? item.Task;
        }

        return first;
    }
}
