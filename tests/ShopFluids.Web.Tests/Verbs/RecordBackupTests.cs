using System.Globalization;
using Microsoft.Data.Sqlite;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Verbs;
using Xunit;

namespace ShopFluids.Web.Tests.Verbs;

/// <summary>What backups keep of the record besides its rows: the key, and a fingerprint.</summary>
public sealed class RecordBackupTests : IDisposable
{
    private readonly RecordRun _run = new();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public void Dispose() => _run.Dispose();

    [Fact]
    public async Task Restore_OnAnotherMachine_BringsTheKeyBack()
    {
        await _run.AddAccountAsync("alex");
        await _run.DoneAsync("backup", "copy.db");
        Directory.Delete(_run.At("data"), recursive: true);

        await _run.DoneAsync("restore", "copy.db");

        Assert.Equal(await File.ReadAllTextAsync(_run.At("copy.db.key"), Stop), await _run.KeyTextAsync());
        await _run.AddAccountAsync("later");
        await _run.DoneAsync("verify");
    }

    [Fact]
    public async Task Restore_FromBeforeAnotherKey_BringsTheFormerKeyBack()
    {
        await _run.AddAccountAsync("alex");
        await _run.DoneAsync("backup", "copy.db");
        var former = await _run.KeyTextAsync();
        await _run.DoneAsync("record-key", "new");

        await _run.DoneAsync("restore", "copy.db", "--force");

        Assert.Equal(former, await _run.KeyTextAsync());
        Assert.Single(Directory.GetFiles(_run.At("data/backups"), "before-restore-*.db.key"));
        await _run.DoneAsync("verify");
    }

    [Fact]
    public async Task Restore_FromBeforeSeals_BeginsANewKey()
    {
        await _run.UnsealAsync();
        SqliteConnection.ClearAllPools();
        File.Copy(_run.At("data/shopfluids.db"), _run.At("old.db"));
        await _run.DoneAsync("migrate");
        await _run.AddAccountAsync("later");

        await _run.DoneAsync("restore", "old.db", "--force");

        await _run.DoneAsync("verify");
    }

    [Fact]
    public async Task Restore_OfAnEarlierCopy_SetsTheFingerprintsOfLaterOnesAside()
    {
        await _run.AddAccountAsync("alex");
        await _run.DoneAsync("backup", "data/first.db");
        await _run.AddAccountAsync("later");
        await _run.DoneAsync("backup", "data/second.db");

        await _run.DoneAsync("restore", "data/first.db", "--force");

        Assert.Contains(Say(Texts.Verb_RestoreFingerprints, 1), _run.Output, StringComparison.Ordinal);
        Assert.True(File.Exists(_run.At("data/second.db.fingerprint.before-restore")));
        await _run.DoneAsync("verify");
        Assert.Contains(Say(Texts.Verify_Seal, (await _run.KeyAsync()).Id, 1, 1), _run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Verify_RecordCutOffAfterABackup_IsToldByWhatTheBackupLeft()
    {
        await _run.AddAccountAsync("alex");
        await _run.AddAccountAsync("later");
        await _run.DoneAsync("backup", "data/copy.db");
        var head = await _run.HeadAsync();
        await _run.CutOffAsync();

        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("verify"));

        Assert.Contains(Say(Texts.Verify_CutOff, $"RecordEntry {head.Count}", head.Count), _run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Verify_FingerprintsFromSheets_AreCompared()
    {
        await _run.AddAccountAsync("alex");
        await _run.AddAccountAsync("later");
        var head = await _run.HeadAsync();
        var printed = $"{head.Count}:{string.Join(' ', head.Hash[..16].Chunk(4).Select(four => new string(four)))}";
        await _run.DoneAsync("verify", "--fingerprint", printed, $"--fingerprint={head}");

        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("verify", "--fingerprint", printed, "--fingerprint", $"{head.Count - 1}:{head.Hash}"));
        Assert.Contains(Say(Texts.Verify_FingerprintDiffers, $"RecordEntry {head.Count - 1}"), _run.Output, StringComparison.Ordinal);

        await _run.CutOffAsync();
        await _run.DoneAsync("verify");
        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("verify", "--fingerprint", printed));
        Assert.Contains(Say(Texts.Verify_CutOff, $"RecordEntry {head.Count}", head.Count), _run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Verify_NoFingerprint_IsABadArgument()
    {
        await _run.DoneAsync("migrate");

        Assert.Equal(ExitCodes.BadArguments, await _run.RunAsync("verify", "--fingerprint", "12:abc"));

        Assert.Contains("12:abc", _run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Verify_FileHoldsNoFingerprint_NamesIt()
    {
        await _run.DoneAsync("migrate");
        await File.WriteAllTextAsync(_run.At("data/copy.db.fingerprint"), "", Stop);

        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("verify"));

        Assert.Contains("copy.db.fingerprint", _run.Error, StringComparison.Ordinal);
    }

    private static string Say(string pattern, params object?[] values) => string.Format(CultureInfo.InvariantCulture, pattern, values);
}
