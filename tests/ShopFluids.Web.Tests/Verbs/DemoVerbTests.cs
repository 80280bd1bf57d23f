using Microsoft.Data.Sqlite;
using ShopFluids.Web.Verbs;
using Xunit;

namespace ShopFluids.Web.Tests.Verbs;

public sealed class DemoVerbTests : IDisposable
{
    private readonly CommandLineRun _run = new();

    public void Dispose()
    {
        SqliteConnection.ClearAllPools();
        _run.Dispose();
    }

    [Fact]
    public async Task Run_EmptyDatabase_FillsItOnceAndTheRecordIsSound()
    {
        Assert.Equal(ExitCodes.Done, await _run.RunAsync("demo", "--sumps", "2", "--years", "1", "--seed", "-3"));
        Assert.Contains("Loading the demo shop: 100 %", _run.Output, StringComparison.Ordinal);
        Assert.Contains("Sumps: 2. Readings: ", _run.Output, StringComparison.Ordinal);
        Assert.Contains("Sign in as ostrey (Supervisor), password ", _run.Output, StringComparison.Ordinal);
        Assert.Equal(ExitCodes.Done, await _run.RunAsync("verify", "--rules"));

        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("demo", "--sumps", "2", "--years", "1"));
        Assert.Equal("This database holds a shop, or a part of one; a generated shop needs an empty one. Nothing was changed. Name another folder with SHOPFLUIDS_DATA.", _run.Error.Trim());
    }

    [Theory]
    [InlineData("--sumps takes a whole number from 1 to 5000, not 0.", "--sumps", "0", "--years", "1")]
    [InlineData("--sumps takes a whole number from 1 to 5000, not 5001.", "--sumps", "5001", "--years", "1")]
    [InlineData("--sumps takes a whole number from 1 to 5000, not many.", "--sumps", "many", "--years", "1")]
    [InlineData("--years takes a whole number from 1 to 20, not 21.", "--sumps", "1", "--years", "21")]
    [InlineData("--years takes a whole number from 1 to 20, not 1.5.", "--sumps", "1", "--years", "1.5")]
    [InlineData("--seed takes a whole number from -2147483648 to 2147483647, not 2147483648.", "--sumps", "1", "--years", "1", "--seed", "2147483648")]
    public async Task Run_ArgumentOutOfRange_NamesItAndTheRangeAndAnswers2(string sentence, params string[] arguments)
    {
        Assert.Equal(ExitCodes.BadArguments, await _run.RunAsync(["demo", .. arguments]));

        Assert.StartsWith(sentence, _run.Error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(_run.At("data")));
    }
}
