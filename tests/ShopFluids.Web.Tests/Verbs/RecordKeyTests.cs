using System.Globalization;
using ShopFluids.Core.Record.Sealing;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Startup;
using ShopFluids.Web.Verbs;
using Xunit;

namespace ShopFluids.Web.Tests.Verbs;

/// <summary>The key to the record through its life: made, kept, lost, given by a setting, replaced.</summary>
public sealed class RecordKeyTests : IDisposable
{
    private const string Setting = "SHOPFLUIDS_RECORD_KEY";

    private readonly RecordRun _run = new();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public void Dispose() => _run.Dispose();

    [Fact]
    public async Task Start_FirstOfAll_MakesAKeyThatOnlyItsOwnerReads()
    {
        await _run.DoneAsync("migrate");

        Assert.True(RecordKey.TryParse(await _run.KeyTextAsync(), out var key));
        Assert.Equal(RecordFingerprint.OfNothing, key.Since);
        if (!OperatingSystem.IsWindows())
        {
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(_run.KeyFile));
        }

        await _run.DoneAsync("verify");
        Assert.Contains(key.Id, _run.Output, StringComparison.Ordinal);
        Assert.DoesNotContain(key.ToSecretText()[..64], _run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Start_Again_KeepsTheKey()
    {
        await _run.DoneAsync("migrate");
        var key = await _run.KeyTextAsync();
        await _run.AddAccountAsync("alex");

        await _run.DoneAsync("migrate");

        Assert.Equal(key, await _run.KeyTextAsync());
        await _run.DoneAsync("verify");
    }

    [Fact]
    public async Task Start_RecordFromBeforeSeals_MakesAKeyThatRemembersIt()
    {
        await _run.UnsealAsync();

        await _run.DoneAsync("migrate");

        Assert.True(RecordKey.TryParse(await _run.KeyTextAsync(), out var key));
        Assert.True(key.Since.Count > 0);
        await _run.AddAccountAsync("later");
        await _run.DoneAsync("verify");
    }

    [Fact]
    public async Task Verify_RecordFromBeforeSeals_ProvesItAndMakesNoKey()
    {
        await _run.UnsealAsync();

        await _run.DoneAsync("verify");

        Assert.False(File.Exists(_run.KeyFile));
    }

    [Theory]
    [InlineData("migrate")]
    [InlineData("verify")]
    [InlineData("serve")]
    public async Task RunAsync_KeyLost_SaysWhatToDoAndMakesNoOther(string verb)
    {
        await _run.AddAccountAsync("alex");
        File.Delete(_run.KeyFile);

        Assert.Equal(ExitCodes.Failed, await _run.RunAsync(verb));

        Assert.Contains("record-key new", _run.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(_run.KeyFile));
    }

    [Fact]
    public async Task RunAsync_KeyOfAnotherRecord_RefusesToWriteAndVerifyNamesTheEntry()
    {
        await _run.AddAccountAsync("alex");
        await File.WriteAllTextAsync(_run.KeyFile, RecordKey.Make(RecordFingerprint.OfNothing).ToSecretText(), Stop);

        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("migrate"));
        Assert.Contains("record-key new", _run.Error, StringComparison.Ordinal);

        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("verify"));
        Assert.Contains(Say(Texts.Verify_NotSealed, "RecordEntry 1"), _run.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("no key")]
    public async Task RunAsync_FileHoldsNoKey_SaysSo(string text)
    {
        await _run.DoneAsync("migrate");
        await File.WriteAllTextAsync(_run.KeyFile, text, Stop);

        foreach (var arguments in new string[][] { ["migrate"], ["verify"], ["record-key", "show"] })
        {
            Assert.Equal(ExitCodes.Failed, await _run.RunAsync(arguments));
            Assert.Contains(Say(Texts.Start_RecordKeyUnreadable, _run.KeyFile), _run.Error, StringComparison.Ordinal);
        }
    }

    // A start that was cut off between keeping the key and writing that it is in use.
    [Fact]
    public async Task Start_KeyIsKeptButNotYetUsed_GoesOnWithIt()
    {
        var key = RecordKey.Make(RecordFingerprint.OfNothing);
        Directory.CreateDirectory(_run.At("data"));
        await File.WriteAllTextAsync(_run.KeyFile, key.ToSecretText(), Stop);

        await _run.DoneAsync("migrate");
        await _run.DoneAsync("verify");

        Assert.Contains(key.Id, _run.Output, StringComparison.Ordinal);
        Assert.Equal(key.ToSecretText(), await _run.KeyTextAsync());
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task Start_KeyFromTheSettings_SealsWithItAndMakesNoFile(bool isFile)
    {
        var key = RecordKey.Make(RecordFingerprint.OfNothing);
        var secret = key.ToSecretText()[..64];
        await File.WriteAllTextAsync(_run.At("secret"), secret + "\n", Stop);
        _run.Environment[isFile ? Setting + "_FILE" : Setting] = isFile ? _run.At("secret") : secret;
        await _run.AddAccountAsync("alex");

        await _run.DoneAsync("verify");

        Assert.Contains(key.Id, _run.Output, StringComparison.Ordinal);
        Assert.False(File.Exists(_run.KeyFile));
        await _run.DoneAsync("config");
        Assert.DoesNotContain(secret, _run.Output, StringComparison.Ordinal);
        // Without the setting it is a lost key like any other.
        _run.Environment.Clear();
        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("migrate"));
    }

    [Fact]
    public async Task Start_SettingDoesNotSaySince_TellsWhatToAdd()
    {
        await _run.UnsealAsync();
        var head = await _run.HeadAsync();
        var secret = new string('7', 64);
        _run.Environment[Setting] = secret;
        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("migrate"));
        Assert.Contains($"since {head}", _run.Error, StringComparison.Ordinal);
        Assert.DoesNotContain(secret, _run.Error, StringComparison.Ordinal);

        _run.Environment[Setting] = $"{secret} since {head}";

        await _run.DoneAsync("migrate");
        await _run.DoneAsync("verify");
    }

    [Fact]
    public async Task Start_SettingIsNoKey_IsAFaultThatDoesNotRepeatIt()
    {
        _run.Environment[Setting] = "hunter2";

        Assert.Equal(ExitCodes.BadSettings, await _run.RunAsync("migrate"));

        Assert.Contains(Texts.Setting_NotARecordKey, _run.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("hunter2", _run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task New_KeyLost_BeginsAnotherAndTheRecordIsSound()
    {
        await _run.AddAccountAsync("alex");
        File.Delete(_run.KeyFile);

        await _run.DoneAsync("record-key", "new");

        await _run.AddAccountAsync("later");
        await _run.DoneAsync("verify");
        await _run.DoneAsync("record-key", "show");
        Assert.True(RecordKey.TryParse(await _run.KeyTextAsync(), out var key));
        Assert.Contains(Say(Texts.Verb_RecordKeyShown, key.Id, key.Since.Count + 1), _run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task New_KeyIsThere_KeepsItAmongTheBackups()
    {
        await _run.DoneAsync("migrate");
        var former = await _run.KeyTextAsync();

        await _run.DoneAsync("record-key", "new");

        Assert.Equal(former, await File.ReadAllTextAsync(Assert.Single(Directory.GetFiles(_run.At("data/backups"), "record-*.key")), Stop));
        Assert.NotEqual(former, await _run.KeyTextAsync());
        await _run.DoneAsync("verify");
    }

    [Fact]
    public async Task New_ServerRuns_Refuses()
    {
        await _run.DoneAsync("migrate");
        using var server = DataFolderLock.TryTake(_run.At("data"));

        Assert.NotNull(server);
        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("record-key", "new"));
    }

    [Fact]
    public async Task New_KeyFromTheSettings_SaysThatItGoesBefore()
    {
        _run.Environment[Setting] = new string('7', 64);

        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("record-key", "new"));

        Assert.Contains(Setting, _run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Show_NothingYet_SaysSo()
    {
        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("record-key", "show"));

        Assert.Contains(Say(Texts.Verb_RecordKeyNone, _run.KeyFile), _run.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("record-key")]
    [InlineData("record-key", "old")]
    public async Task RunAsync_OtherArguments_ShowsTheUsage(params string[] arguments) => Assert.Equal(ExitCodes.BadArguments, await _run.RunAsync(arguments));

    private static string Say(string pattern, params object?[] values) => string.Format(CultureInfo.InvariantCulture, pattern, values);
}
