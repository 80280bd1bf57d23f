using Microsoft.Data.Sqlite;
using ShopFluids.Core.Wording;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Pictures;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Startup;
using ShopFluids.Web.Verbs;
using Xunit;

namespace ShopFluids.Web.Tests.Verbs;

public sealed class BackupRestoreTests : IDisposable
{
    private readonly CommandLineRun _run = new();

    public void Dispose()
    {
        SqliteConnection.ClearAllPools();
        _run.Dispose();
    }

    [Fact]
    public async Task Backup_ThenRestoreElsewhere_BringsTheAccountsBack()
    {
        await AddAccountAsync("alex");
        Assert.Equal(ExitCodes.Done, await _run.RunAsync("backup", "copy.db"));
        await AddAccountAsync("later");

        Assert.Equal(ExitCodes.Done, await _run.RunAsync("restore", "copy.db", "--force"));

        Assert.Equal(ExitCodes.Done, await _run.RunAsync("account", "list"));
        Assert.Contains("alex", _run.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("later", _run.Output, StringComparison.Ordinal);
        Assert.Single(Directory.GetFiles(_run.At("data/backups"), "before-restore-*.db"));
    }

    [Fact]
    public async Task Backup_ThenRestoreElsewhere_BringsThePhotosBack()
    {
        await using var database = await TestDatabase.CreateAsync(Testing.Databases.DatabaseEngine.Sqlite);
        var reading = Some.Reading() with { Photo = SamplePicture.Clean() };
        await using (var shop = await ShopFixture.OpenAsync(database))
        {
            await shop.StoreAsync(reading);
        }

        _run.Environment["SHOPFLUIDS_DATABASE_CONNECTION"] = database.ConnectionString;
        Assert.Equal(ExitCodes.Done, await _run.RunAsync("backup", "copy.db"));
        _run.Environment.Clear();

        Assert.Equal(ExitCodes.Done, await _run.RunAsync("restore", "copy.db"));

        Assert.Equal(ExitCodes.Done, await _run.RunAsync("verify"));
        SqliteConnection.ClearAllPools();
        await using var connection = new SqliteConnection($"Data Source={_run.At("data/shopfluids.db")}");
        await connection.OpenAsync(TestContext.Current.CancellationToken);
        await using var command = connection.CreateCommand();
        command.CommandText = "SELECT Bytes FROM PhotoContents";
        Assert.Equal(reading.Photo.Bytes.ToArray(), Assert.IsType<byte[]>(await command.ExecuteScalarAsync(TestContext.Current.CancellationToken)));
    }

    [Fact]
    public async Task Backup_FileExists_LeavesItAlone()
    {
        await AddAccountAsync("alex");
        await File.WriteAllTextAsync(_run.At("copy.db"), "mine", TestContext.Current.CancellationToken);

        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("backup", "copy.db"));

        Assert.Equal("mine", await File.ReadAllTextAsync(_run.At("copy.db"), TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task Restore_DatabaseIsThere_AsksForForce()
    {
        await AddAccountAsync("alex");
        await _run.RunAsync("backup", "copy.db");

        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("restore", "copy.db"));

        Assert.Contains("--force", _run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Restore_FileIsNoBackup_ChangesNothing()
    {
        await AddAccountAsync("alex");
        await File.WriteAllTextAsync(_run.At("copy.db"), new string('x', 5000), TestContext.Current.CancellationToken);

        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("restore", "copy.db", "--force"));

        await _run.RunAsync("account", "list");
        Assert.Contains("alex", _run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Restore_ServerRuns_Refuses()
    {
        await AddAccountAsync("alex");
        await _run.RunAsync("backup", "copy.db");
        using var server = DataFolderLock.TryTake(_run.At("data"));

        Assert.NotNull(server);
        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("restore", "copy.db", "--force"));
    }

    [Theory]
    [InlineData("backup", "pg_dump")]
    [InlineData("restore", "pg_restore")]
    public async Task RunAsync_Postgres_NamesItsOwnTool(string verb, string tool)
    {
        _run.Environment["SHOPFLUIDS_DATABASE_ENGINE"] = "postgres";
        _run.Environment["SHOPFLUIDS_DATABASE_CONNECTION"] = "Host=localhost;Database=none";

        Assert.Equal(ExitCodes.Failed, await _run.RunAsync(verb, "file"));

        Assert.Contains(tool, _run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Verify_RowChangedByHand_NamesItAndFails()
    {
        await AddAccountAsync("alex");
        await _run.RunAsync("token", "add", "gauge", "--for", "alex");
        Assert.Equal(ExitCodes.Done, await _run.RunAsync("verify"));
        SqliteConnection.ClearAllPools();
        await using (var connection = new SqliteConnection($"Data Source={_run.At("data/shopfluids.db")}"))
        {
            await connection.OpenAsync(TestContext.Current.CancellationToken);
            await using var command = connection.CreateCommand();
            command.CommandText = "UPDATE ApiTokens SET Name = 'other'";
            await command.ExecuteNonQueryAsync(TestContext.Current.CancellationToken);
        }

        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("verify"));

        Assert.Contains("ApiToken", _run.Output, StringComparison.Ordinal);
        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("verify", "--rules"));
        Assert.Contains(Texts.Verify_RulesNeedASoundRecord, _run.Error, StringComparison.Ordinal);
    }

    private async Task AddAccountAsync(string name)
    {
        _run.Typed = "long enough to pass";
        Assert.Equal(ExitCodes.Done, await _run.RunAsync("account", "add", name, "--name", "Somebody", "--roles", "supervisor,caretaker"));
    }
}
