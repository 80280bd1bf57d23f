namespace ShopFluids.Architecture.Tests;

/// <summary>Rules for the tests themselves.</summary>
public sealed class TestSourceTests
{
    // One engine alone would prove half: only what builds the databases may name one.
    [Fact]
    public void DatabaseTests_OfTheCore_RunOnEachEngine() =>
        Assert.Empty(Tests("ShopFluids.Core.Tests")
            .Where(f => File.ReadAllText(f) is var text
                && text.Contains("ShopFixture.", StringComparison.Ordinal)
                && text.Contains("[Fact", StringComparison.Ordinal)
                && !text.Contains("EachDatabase", StringComparison.Ordinal)
                && !text.Contains("Enum.GetValues<DatabaseEngine>()", StringComparison.Ordinal))
            .Select(Repository.Relative));

    [Fact]
    public void Tests_Skipped_ThereAreNone() =>
        Assert.Empty(Tests("").Where(f => File.ReadAllText(f) is var text && (text.Contains("Skip = ", StringComparison.Ordinal) || text.Contains("Assert.Skip", StringComparison.Ordinal)) && !f.EndsWith("TestSourceTests.cs", StringComparison.Ordinal)).Select(Repository.Relative));

    // FakeTimeProvider moves the clock; who sleeps waits too long on a fast machine and too short on a slow one.
    [Fact]
    public void Tests_Sleep_NoneDoes() =>
        Assert.Empty(Tests("ShopFluids.Core.Tests").Where(f => File.ReadAllText(f) is var text && (text.Contains("Task.Delay(", StringComparison.Ordinal) || text.Contains("Thread.Sleep(", StringComparison.Ordinal))).Select(Repository.Relative));

    // Speed is the benchmarks' to show, beside a floor of the same run; a limit in seconds holds on one machine and not on another.
    [Fact]
    public void Tests_Timed_NoneIs() =>
        Assert.Empty(Tests("").Where(f => !Repository.Relative(f).Contains("EndToEnd", StringComparison.Ordinal) && !Repository.Relative(f).Contains("Benchmarks", StringComparison.Ordinal)
            && !f.EndsWith("TestSourceTests.cs", StringComparison.Ordinal) && File.ReadAllText(f).Contains("Stopwatch", StringComparison.Ordinal)).Select(Repository.Relative));

    private static IEnumerable<string> Tests(string project) =>
        Directory.EnumerateFiles(Repository.PathOf(Path.Combine("tests", project)), "*.cs", SearchOption.AllDirectories)
            .Where(f => !Repository.Relative(f).Contains("/obj/", StringComparison.Ordinal) && !Repository.Relative(f).Contains("/bin/", StringComparison.Ordinal));
}
