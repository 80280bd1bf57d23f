using System.Diagnostics;
using Testcontainers.PostgreSql;

namespace ShopFluids.Testing.Databases;

/// <summary>
/// The PostgreSQL server of this test process. In this order: a container when SHOPFLUIDS_TEST_POSTGRES is "container"; the server that
/// SHOPFLUIDS_TEST_POSTGRES_CONNECTION names (deploy/dev/test.sh starts one); a private server started here. What is started here
/// ends with the process.
/// </summary>
internal static class PostgresServer
{
    private static readonly TimeSpan StopLimit = TimeSpan.FromSeconds(20);
    private static readonly Lazy<Task<Server>> Started = new(StartAsync);

    /// <exception cref="InvalidOperationException">No server could be started; the message says what to do.</exception>
    public static Task<Server> ConnectAsync() => Started.Value;

    private static async Task<Server> StartAsync()
    {
        if (Setting("SHOPFLUIDS_TEST_POSTGRES") == "container")
        {
            return new Server(await StartContainerAsync(Setting("SHOPFLUIDS_TEST_POSTGRES_IMAGE") ?? "postgres:17"), OutlivesProcess: false);
        }

        return Setting("SHOPFLUIDS_TEST_POSTGRES_CONNECTION") is { } given
            ? new Server(given, OutlivesProcess: true)
            : new Server(await StartPrivateAsync(), OutlivesProcess: false);
    }

    private static async Task<string> StartContainerAsync(string image)
    {
        var container = new PostgreSqlBuilder(image).WithCommand("-c", "max_connections=300").Build();
        AppDomain.CurrentDomain.ProcessExit += (_, _) => container.DisposeAsync().AsTask().Wait(StopLimit);
        await container.StartAsync();
        return container.GetConnectionString();
    }

    /// <summary>The script keeps the server for as long as its standard input stays open, so it goes even when this process is killed.</summary>
    private static async Task<string> StartPrivateAsync()
    {
        var script = Path.Combine(RepositoryRoot(), "deploy", "dev", "postgres.sh");
        var holder = Process.Start(new ProcessStartInfo("bash", [script, "hold"])
        {
            UseShellExecute = false,
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        }) ?? throw new InvalidOperationException($"{script} could not be started.");

        AppDomain.CurrentDomain.ProcessExit += (_, _) =>
        {
            holder.StandardInput.Close();
            holder.WaitForExit(StopLimit);
        };
        return await holder.StandardOutput.ReadLineAsync()
            ?? throw new InvalidOperationException(
                $"A private PostgreSQL server did not start: {await holder.StandardError.ReadToEndAsync()} "
                + "deploy/dev/test.sh installs what is missing; SHOPFLUIDS_TEST_POSTGRES_CONNECTION names a server of your own.");
    }

    private static string RepositoryRoot()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "ShopFluids.sln")))
            {
                return folder.FullName;
            }
        }

        throw new InvalidOperationException(
            $"{AppContext.BaseDirectory} is not inside the repository, so no private PostgreSQL server can be started from here; "
            + "set SHOPFLUIDS_TEST_POSTGRES_CONNECTION.");
    }

    private static string? Setting(string name) => Environment.GetEnvironmentVariable(name) is { Length: > 0 } value ? value : null;

    /// <param name="ConnectionString">As a role that may create databases.</param>
    /// <param name="OutlivesProcess">Whether someone else started it, so that what is made on it must be cleared away.</param>
    internal sealed record Server(string ConnectionString, bool OutlivesProcess);
}
