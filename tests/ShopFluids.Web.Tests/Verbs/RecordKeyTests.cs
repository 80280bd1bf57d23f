using Microsoft.Data.Sqlite;
using ShopFluids.Core.Record.Sealing;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Startup;
using ShopFluids.Web.Verbs;
using Xunit;

namespace ShopFluids.Web.Tests.Verbs;

/// <summary>The key to the record through its life: made, kept, lost, given by a setting, replaced, backed up and brought back.</summary>
public sealed class RecordKeyTests : IDisposable
{
    private const string KeyFile = "data/record.key";
    private const string Setting = "SHOPFLUIDS_RECORD_KEY";

    private readonly CommandLineRun _run = new();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public void Dispose()
    {
        SqliteConnection.ClearAllPools();
        _run.Dispose();
    }

    [Fact]
    public async Task Start_FirstOfAll_MakesAKeyThatOnlyItsOwnerReads()
    {
        await DoneAsync("migrate");

        Assert.True(RecordKey.TryParse(await KeyTextAsync(), out var key));
        Assert.Equal(RecordFingerprint.OfNothing, key.Since);
        if (!OperatingSystem.IsWindows())
        {
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(_run.At(KeyFile)));
        }

        await DoneAsync("verify");
        Assert.Contains(key.Id, _run.Output, StringComparison.Ordinal);
        Assert.DoesNotContain(key.ToSecretText()[..64], _run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Start_Again_KeepsTheKey()
    {
        await DoneAsync("migrate");
        var key = await KeyTextAsync();
        await AddAccountAsync("alex");

        await DoneAsync("migrate");

        Assert.Equal(key, await KeyTextAsync());
        await DoneAsync("verify");
    }

    [Fact]
    public async Task Start_RecordFromBeforeSeals_MakesAKeyThatRemembersIt()
    {
        await UnsealAsync();

        await DoneAsync("migrate");

        Assert.True(RecordKey.TryParse(await KeyTextAsync(), out var key));
        Assert.True(key.Since.Count > 0);
        await AddAccountAsync("later");
        await DoneAsync("verify");
    }

    [Theory]
    [InlineData("migrate")]
    [InlineData("verify")]
    [InlineData("serve")]
    public async Task RunAsync_KeyLost_SaysWhatToDoAndMakesNoOther(string verb)
    {
        await AddAccountAsync("alex");
        File.Delete(_run.At(KeyFile));

        Assert.Equal(ExitCodes.Failed, await _run.RunAsync(verb));

        Assert.Contains("record-key new", _run.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(_run.At(KeyFile)));
    }

    [Fact]
    public async Task RunAsync_KeyOfAnotherRecord_RefusesToWriteAndVerifyNamesTheEntry()
    {
        await AddAccountAsync("alex");
        await File.WriteAllTextAsync(_run.At(KeyFile), RecordKey.Make(RecordFingerprint.OfNothing).ToSecretText(), Stop);

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
        await DoneAsync("migrate");
        await File.WriteAllTextAsync(_run.At(KeyFile), text, Stop);

        foreach (var arguments in new string[][] { ["migrate"], ["verify"], ["record-key", "show"] })
        {
            Assert.Equal(ExitCodes.Failed, await _run.RunAsync(arguments));
            Assert.Contains(Say(Texts.Start_RecordKeyUnreadable, _run.At(KeyFile)), _run.Error, StringComparison.Ordinal);
        }
    }

    // A start that was cut off between keeping the key and writing that it is in use.
    [Fact]
    public async Task Start_KeyIsKeptButNotYetUsed_GoesOnWithIt()
    {
        var key = RecordKey.Make(RecordFingerprint.OfNothing);
        Directory.CreateDirectory(_run.At("data"));
        await File.WriteAllTextAsync(_run.At(KeyFile), key.ToSecretText(), Stop);

        await DoneAsync("verify");

        Assert.Contains(key.Id, _run.Output, StringComparison.Ordinal);
        Assert.Equal(key.ToSecretText(), await KeyTextAsync());
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
        await AddAccountAsync("alex");

        await DoneAsync("verify");

        Assert.Contains(key.Id, _run.Output, StringComparison.Ordinal);
        Assert.False(File.Exists(_run.At(KeyFile)));
        await DoneAsync("config");
        Assert.DoesNotContain(secret, _run.Output, StringComparison.Ordinal);
        // Without the setting it is a lost key like any other.
        _run.Environment.Clear();
        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("migrate"));
    }

    [Fact]
    public async Task Start_SettingDoesNotSaySince_TellsWhatToAdd()
    {
        await UnsealAsync();
        var head = await HeadAsync();
        var secret = new string('7', 64);
        _run.Environment[Setting] = secret;
        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("migrate"));
        Assert.Contains($"since {head}", _run.Error, StringComparison.Ordinal);
        Assert.DoesNotContain(secret, _run.Error, StringComparison.Ordinal);

        _run.Environment[Setting] = $"{secret} since {head}";

        await DoneAsync("migrate");
        await DoneAsync("verify");
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
        await AddAccountAsync("alex");
        File.Delete(_run.At(KeyFile));

        await DoneAsync("record-key", "new");

        await AddAccountAsync("later");
        await DoneAsync("verify");
        await DoneAsync("record-key", "show");
        Assert.True(RecordKey.TryParse(await KeyTextAsync(), out var key));
        Assert.Contains(Say(Texts.Verb_RecordKeyShown, key.Id, key.Since.Count + 1), _run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task New_KeyIsThere_KeepsItAmongTheBackups()
    {
        await DoneAsync("migrate");
        var former = await KeyTextAsync();

        await DoneAsync("record-key", "new");

        Assert.Equal(former, await File.ReadAllTextAsync(Assert.Single(Directory.GetFiles(_run.At("data/backups"), "record-*.key")), Stop));
        Assert.NotEqual(former, await KeyTextAsync());
        await DoneAsync("verify");
    }

    [Fact]
    public async Task New_ServerRuns_Refuses()
    {
        await DoneAsync("migrate");
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

        Assert.Contains(Say(Texts.Verb_RecordKeyNone, _run.At(KeyFile)), _run.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("record-key")]
    [InlineData("record-key", "old")]
    public async Task RunAsync_OtherArguments_ShowsTheUsage(params string[] arguments) => Assert.Equal(ExitCodes.BadArguments, await _run.RunAsync(arguments));

    [Fact]
    public async Task Restore_OnAnotherMachine_BringsTheKeyBack()
    {
        await AddAccountAsync("alex");
        await DoneAsync("backup", "copy.db");
        Directory.Delete(_run.At("data"), recursive: true);

        await DoneAsync("restore", "copy.db");

        Assert.Equal(await File.ReadAllTextAsync(_run.At("copy.db.key"), Stop), await KeyTextAsync());
        await AddAccountAsync("later");
        await DoneAsync("verify");
    }

    [Fact]
    public async Task Restore_FromBeforeAnotherKey_BringsTheFormerKeyBack()
    {
        await AddAccountAsync("alex");
        await DoneAsync("backup", "copy.db");
        var former = await KeyTextAsync();
        await DoneAsync("record-key", "new");

        await DoneAsync("restore", "copy.db", "--force");

        Assert.Equal(former, await KeyTextAsync());
        Assert.Single(Directory.GetFiles(_run.At("data/backups"), "before-restore-*.db.key"));
        await DoneAsync("verify");
    }

    [Fact]
    public async Task Restore_FromBeforeSeals_BeginsANewKey()
    {
        await UnsealAsync();
        SqliteConnection.ClearAllPools();
        File.Copy(_run.At("data/shopfluids.db"), _run.At("old.db"));
        await DoneAsync("migrate");
        await AddAccountAsync("later");

        await DoneAsync("restore", "old.db", "--force");

        await DoneAsync("verify");
    }

    [Fact]
    public async Task Restore_OfAnEarlierCopy_SetsTheFingerprintsOfLaterOnesAside()
    {
        await AddAccountAsync("alex");
        await DoneAsync("backup", "data/first.db");
        await AddAccountAsync("later");
        await DoneAsync("backup", "data/second.db");

        await DoneAsync("restore", "data/first.db", "--force");

        Assert.Contains(Say(Texts.Verb_RestoreFingerprints, 1), _run.Output, StringComparison.Ordinal);
        Assert.True(File.Exists(_run.At("data/second.db.fingerprint.before-restore")));
        await DoneAsync("verify");
        Assert.Contains(Say(Texts.Verify_Seal, (await KeyAsync()).Id, 1, 1), _run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Verify_RecordCutOffAfterABackup_IsToldByWhatTheBackupLeft()
    {
        await AddAccountAsync("alex");
        await AddAccountAsync("later");
        await DoneAsync("backup", "data/copy.db");
        var head = await HeadAsync();
        await CutOffAsync();

        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("verify"));

        Assert.Contains(Say(Texts.Verify_CutOff, $"RecordEntry {head.Count}", head.Count), _run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Verify_FingerprintsFromSheets_AreCompared()
    {
        await AddAccountAsync("alex");
        await AddAccountAsync("later");
        var head = await HeadAsync();
        var printed = $"{head.Count}:{string.Join(' ', head.Hash[..16].Chunk(4).Select(four => new string(four)))}";
        await DoneAsync("verify", "--fingerprint", printed, $"--fingerprint={head}");

        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("verify", "--fingerprint", printed, "--fingerprint", $"{head.Count - 1}:{head.Hash}"));
        Assert.Contains(Say(Texts.Verify_FingerprintDiffers, $"RecordEntry {head.Count - 1}"), _run.Output, StringComparison.Ordinal);

        await CutOffAsync();
        await DoneAsync("verify");
        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("verify", "--fingerprint", printed));
        Assert.Contains(Say(Texts.Verify_CutOff, $"RecordEntry {head.Count}", head.Count), _run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Verify_NoFingerprint_IsABadArgument()
    {
        await DoneAsync("migrate");

        Assert.Equal(ExitCodes.BadArguments, await _run.RunAsync("verify", "--fingerprint", "12:abc"));

        Assert.Contains("12:abc", _run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Verify_FileHoldsNoFingerprint_NamesIt()
    {
        await DoneAsync("migrate");
        await File.WriteAllTextAsync(_run.At("data/copy.db.fingerprint"), "", Stop);

        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("verify"));

        Assert.Contains("copy.db.fingerprint", _run.Error, StringComparison.Ordinal);
    }

    private static string Say(string pattern, params object?[] values) => string.Format(System.Globalization.CultureInfo.InvariantCulture, pattern, values);

    private async Task DoneAsync(params string[] arguments)
    {
        var code = await _run.RunAsync(arguments);
        Assert.True(code == ExitCodes.Done, $"{string.Join(' ', arguments)} answered {code}: {_run.Error}{_run.Output}");
    }

    private async Task AddAccountAsync(string name)
    {
        _run.Typed = "long enough to pass";
        await DoneAsync("account", "add", name, "--name", "Somebody", "--roles", "supervisor,caretaker");
    }

    private Task<string> KeyTextAsync() => File.ReadAllTextAsync(_run.At(KeyFile), Stop);

    private async Task<RecordKey> KeyAsync() => RecordKey.TryParse(await KeyTextAsync(), out var key) ? key : throw new InvalidOperationException("No key.");

    /// <summary>A shop whose record nobody has sealed yet.</summary>
    private async Task UnsealAsync()
    {
        await AddAccountAsync("alex");
        await SqlAsync("UPDATE RecordEntries SET Seal = NULL");
        File.Delete(_run.At(KeyFile));
    }

    // Making an account is recorded without its row, so nothing within the database tells.
    private Task CutOffAsync() => SqlAsync("DELETE FROM RecordEntries WHERE Sequence = (SELECT MAX(Sequence) FROM RecordEntries); UPDATE RecordHead SET (Sequence, Hash) = (SELECT Sequence, Hash FROM RecordEntries ORDER BY Sequence DESC LIMIT 1)");

    private async Task<RecordFingerprint> HeadAsync() =>
        RecordFingerprint.TryParse((string)(await SqlAsync("SELECT Sequence || ':' || Hash FROM RecordHead"))!, out var head) ? head : throw new InvalidOperationException("No head.");

    private async Task<object?> SqlAsync(string statement)
    {
        SqliteConnection.ClearAllPools();
        await using var connection = new SqliteConnection($"Data Source={_run.At("data/shopfluids.db")}");
        await connection.OpenAsync(Stop);
        await using var command = connection.CreateCommand();
        command.CommandText = statement;
        return await command.ExecuteScalarAsync(Stop);
    }
}
