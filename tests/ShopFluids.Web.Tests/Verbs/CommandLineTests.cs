using ShopFluids.Web.Verbs;
using Xunit;

namespace ShopFluids.Web.Tests.Verbs;

public sealed class CommandLineTests : IDisposable
{
    private readonly CommandLineRun _run = new();

    public void Dispose() => _run.Dispose();

    [Fact]
    public async Task RunAsync_Help_ListsVerbsAndSettings()
    {
        Assert.Equal(ExitCodes.Done, await _run.RunAsync("--help"));

        Assert.All(["serve", "migrate", "verify", "rejudge", "backup", "restore", "record-key", "account", "token", "demo", "config"], verb => Assert.Contains($"\n  {verb} ", _run.Output, StringComparison.Ordinal));
        Assert.Contains("SHOPFLUIDS_DATABASE_ENGINE", _run.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("serve")]
    [InlineData("migrate")]
    [InlineData("verify")]
    [InlineData("backup")]
    [InlineData("restore")]
    [InlineData("account")]
    [InlineData("token")]
    [InlineData("demo")]
    [InlineData("config")]
    public async Task RunAsync_HelpOfVerb_ShowsItsUsage(string verb)
    {
        Assert.Equal(ExitCodes.Done, await _run.RunAsync(verb, "--help"));

        Assert.Contains($"shopfluids {verb}", _run.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("polish")]
    [InlineData("serve", "--polish")]
    [InlineData("serve", "now")]
    [InlineData("serve", "--urls")]
    [InlineData("backup")]
    [InlineData("account")]
    [InlineData("account", "paint", "someone")]
    [InlineData("account", "add", "someone")]
    [InlineData("token", "add", "name")]
    public async Task RunAsync_BadArguments_ShowsUsageAndAnswers2(params string[] arguments)
    {
        Assert.Equal(ExitCodes.BadArguments, await _run.RunAsync(arguments));

        Assert.Contains("shopfluids", _run.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("serve")]
    [InlineData("migrate")]
    [InlineData("config")]
    public async Task RunAsync_BadSettings_ListsFaultsAndAnswers3(string verb)
    {
        _run.Environment["SHOPFLUIDS_DATABASE_ENGINE"] = "oracle";
        _run.Environment["SHOPFLUIDS_COLOUR"] = "blue";

        Assert.Equal(ExitCodes.BadSettings, await _run.RunAsync(verb));

        Assert.Contains("SHOPFLUIDS_DATABASE_ENGINE", _run.Error, StringComparison.Ordinal);
        Assert.Contains("SHOPFLUIDS_COLOUR", _run.Error, StringComparison.Ordinal);
    }

    // An empty database would be made, and found sound.
    [Fact]
    public async Task RunAsync_VerifyWithoutADatabase_SaysWhereItLookedAndMakesNone()
    {
        _run.Environment["SHOPFLUIDS_DATA"] = _run.At("data");

        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("verify"));

        Assert.Contains(_run.At("data"), _run.Error, StringComparison.Ordinal);
        Assert.Contains("--demo", _run.Error, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFiles(_run.Folder, "*.db", SearchOption.AllDirectories));
    }

    [Fact]
    public async Task RunAsync_Config_MasksSecretsAndSaysWhereFrom()
    {
        _run.Environment["SHOPFLUIDS_DATABASE_ENGINE"] = "postgres";
        _run.Environment["SHOPFLUIDS_DATABASE_CONNECTION"] = "Host=db;Database=shop;Username=u;Password=hunter2";

        Assert.Equal(ExitCodes.Done, await _run.RunAsync("config", "--base-path", "/coolant"));

        Assert.DoesNotContain("hunter2", _run.Output, StringComparison.Ordinal);
        Assert.Contains("SHOPFLUIDS_DATABASE_CONNECTION=********  (environment)", _run.Output, StringComparison.Ordinal);
        Assert.Contains("SHOPFLUIDS_BASE_PATH=/coolant  (command line)", _run.Output, StringComparison.Ordinal);
        Assert.Contains("SHOPFLUIDS_URLS=http://localhost:5080  (default)", _run.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("serve")]
    [InlineData("migrate")]
    [InlineData("account", "list")]
    public async Task RunAsync_DataFolderCannotBeMade_SaysSoAndAnswers1(params string[] arguments)
    {
        await File.WriteAllTextAsync(_run.At("file"), "", TestContext.Current.CancellationToken);
        _run.Environment["SHOPFLUIDS_DATA"] = _run.At("file/data");

        Assert.Equal(ExitCodes.Failed, await _run.RunAsync(arguments));

        Assert.Contains("cannot be used", _run.Error, StringComparison.Ordinal);
        Assert.Contains(_run.At("file/data"), _run.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("Another ShopFluids", _run.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("http://192.0.2.1:5080")]
    [InlineData("https://127.0.0.1:0")]
    public async Task RunAsync_ServeWhereItCannotListen_SaysSoAndAnswers1(string address)
    {
        _run.Environment["SHOPFLUIDS_DATA"] = _run.At("data");
        _run.Environment["SHOPFLUIDS_URLS"] = address;

        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("serve"));

        Assert.Contains($"cannot listen on {address}", _run.Error, StringComparison.Ordinal);
    }
}
