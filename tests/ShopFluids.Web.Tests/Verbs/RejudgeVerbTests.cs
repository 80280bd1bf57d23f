using Microsoft.Data.Sqlite;
using ShopFluids.Web.Verbs;
using Xunit;

namespace ShopFluids.Web.Tests.Verbs;

public sealed class RejudgeVerbTests : IDisposable
{
    private readonly CommandLineRun _run = new() { Typed = "long enough to pass" };

    public void Dispose()
    {
        SqliteConnection.ClearAllPools();
        _run.Dispose();
    }

    [Fact]
    public async Task Run_ByAPersonWithAReason_IsDoneAndTheRecordIsSound()
    {
        Assert.Equal(ExitCodes.Done, await _run.RunAsync("account", "add", "alex", "--name", "Somebody", "--roles", "supervisor"));

        Assert.Equal(ExitCodes.Done, await _run.RunAsync("rejudge", "--reason", "Limits changed", "--by", "ALEX"));
        Assert.Equal("Judged again: sumps 0, flags raised 0, flags ended 0.", _run.Output.Trim());
        Assert.Equal(ExitCodes.Done, await _run.RunAsync("verify", "--rules"));
    }

    [Fact]
    public async Task Run_ByNobodyOrForNoSump_Fails()
    {
        await _run.RunAsync("account", "add", "alex", "--name", "Somebody", "--roles", "supervisor");

        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("rejudge", "--reason", "Limits changed", "--by", "nobody"));
        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("rejudge", "--reason", "Limits changed", "--by", "alex", "--sump", "S-99"));
        Assert.Equal("There is no sump S-99. Check the tag on the label.", _run.Error.Trim());
        Assert.Equal(ExitCodes.BadArguments, await _run.RunAsync("rejudge", "--by", "alex"));

        // Nor in the name of somebody who has left.
        await _run.RunAsync("account", "add", "robin", "--name", "Somebody", "--roles", "supervisor");
        Assert.Equal(ExitCodes.Done, await _run.RunAsync("account", "rename-to-number", "robin"));
        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("rejudge", "--reason", "Limits changed", "--by", "person-2"));
    }
}
