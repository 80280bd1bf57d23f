using System.Diagnostics;
using ShopFluids.Testing.Databases;

namespace ShopFluids.EndToEnd.Tests.Server;

/// <summary>Where a server keeps its data: a folder of its own, and a database.</summary>
/// <param name="ConnectionString">Null: the file that the program makes in its folder.</param>
internal sealed record ServerData(string Folder, DatabaseEngine Engine, string? ConnectionString) : IDisposable
{
    private const string SettingPrefix = "SHOPFLUIDS_";

    public static ServerData New(DatabaseEngine engine = DatabaseEngine.Sqlite, string? connectionString = null) =>
        new(Directory.CreateTempSubdirectory("shopfluids-e2e-").FullName, engine, connectionString);

    /// <summary>The program as its own process, with these settings and no others.</summary>
    public ProcessStartInfo Start(params string[] arguments)
    {
        var start = new ProcessStartInfo("dotnet", [ProgramFile.Location, .. arguments])
        {
            UseShellExecute = false,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = Folder,
        };
        foreach (var name in start.Environment.Keys.Where(k => k.StartsWith(SettingPrefix, StringComparison.Ordinal) || k.StartsWith("ASPNETCORE_", StringComparison.Ordinal)).ToList())
        {
            start.Environment.Remove(name);
        }

        start.Environment["SHOPFLUIDS_DATA"] = Folder;
        start.Environment["SHOPFLUIDS_DATABASE_ENGINE"] = Engine == DatabaseEngine.Sqlite ? "sqlite" : "postgres";
        if (ConnectionString is not null)
        {
            start.Environment["SHOPFLUIDS_DATABASE_CONNECTION"] = ConnectionString;
        }

        return start;
    }

    /// <summary>Runs a verb to its end.</summary>
    public async Task<(int ExitCode, string Output)> RunAsync(params string[] arguments)
    {
        using var process = Process.Start(Start(arguments)) ?? throw new InvalidOperationException("The program did not start.");
        var output = process.StandardOutput.ReadToEndAsync();
        var error = process.StandardError.ReadToEndAsync();
        await process.WaitForExitAsync();
        return (process.ExitCode, await output + await error);
    }

    public void Dispose() => Directory.Delete(Folder, recursive: true);
}
