using Microsoft.Data.Sqlite;
using ShopFluids.Core.Record.Sealing;
using ShopFluids.Web.Verbs;
using Xunit;

namespace ShopFluids.Web.Tests.Verbs;

/// <summary>Calls of the program in a folder of their own, with hands on the record and on its key.</summary>
internal sealed class RecordRun : IDisposable
{
    private readonly CommandLineRun _run = new();

    public Dictionary<string, string> Environment => _run.Environment;

    public string Output => _run.Output;

    public string Error => _run.Error;

    public string KeyFile => At("data/record.key");

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public string At(string file) => _run.At(file);

    public Task<int> RunAsync(params string[] arguments) => _run.RunAsync(arguments);

    public async Task DoneAsync(params string[] arguments)
    {
        var code = await _run.RunAsync(arguments);
        Assert.True(code == ExitCodes.Done, $"{string.Join(' ', arguments)} answered {code}: {_run.Error}{_run.Output}");
    }

    public async Task AddAccountAsync(string name)
    {
        _run.Typed = "long enough to pass";
        await DoneAsync("account", "add", name, "--name", "Somebody", "--roles", "supervisor,caretaker");
    }

    public Task<string> KeyTextAsync() => File.ReadAllTextAsync(KeyFile, Stop);

    public async Task<RecordKey> KeyAsync() => RecordKey.TryParse(await KeyTextAsync(), out var key) ? key : throw new InvalidOperationException("No key.");

    public async Task<RecordFingerprint> HeadAsync() =>
        RecordFingerprint.TryParse((string)(await SqlAsync("SELECT Sequence || ':' || Hash FROM RecordHead"))!, out var head) ? head : throw new InvalidOperationException("No head.");

    /// <summary>Makes it a shop whose record nobody has sealed yet.</summary>
    public async Task UnsealAsync()
    {
        await AddAccountAsync("alex");
        await SqlAsync("UPDATE RecordEntries SET Seal = NULL");
        File.Delete(KeyFile);
    }

    /// <summary>Cuts off the last entry and takes the person along whose account it made, so nothing within the database tells.</summary>
    public Task CutOffAsync() => SqlAsync(
        """
        DELETE FROM PersonNumbers WHERE instr((SELECT upper(Changes) FROM RecordEntries ORDER BY Sequence DESC LIMIT 1), upper(Id)) > 0;
        DELETE FROM AspNetUsers WHERE Id NOT IN (SELECT Id FROM PersonNumbers);
        DELETE FROM RecordEntries WHERE Sequence = (SELECT MAX(Sequence) FROM RecordEntries);
        UPDATE RecordHead SET (Sequence, Hash) = (SELECT Sequence, Hash FROM RecordEntries ORDER BY Sequence DESC LIMIT 1);
        """);

    public void Dispose()
    {
        SqliteConnection.ClearAllPools();
        _run.Dispose();
    }

    private async Task<object?> SqlAsync(string statement)
    {
        SqliteConnection.ClearAllPools();
        await using var connection = new SqliteConnection($"Data Source={At("data/shopfluids.db")}");
        await connection.OpenAsync(Stop);
        await using var command = connection.CreateCommand();
        command.CommandText = statement;
        return await command.ExecuteScalarAsync(Stop);
    }
}
