using System.Diagnostics;
using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Readings;

/// <summary>Invariant 13: what an acknowledged save stored survives kill -9. A real process is really killed, in the middle of 1,000 readings.</summary>
public sealed class KilledProcessTests
{
    [Theory]
    [EachDatabase(300)]
    [EachDatabase(7)]
    public async Task HandleAsync_ProcessKilledInTheMiddle_LosesNoAcknowledgedReading(TestDatabase database, int killAfter)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var acknowledged = await WriteAndKillAsync(database, shop.Now, killAfter);
        Assert.InRange(acknowledged.Count, killAfter, 999);

        await AssertAllThereAsync(shop, acknowledged);

        // The program starts again on what is left, writes on, and is killed again.
        acknowledged.AddRange(await WriteAndKillAsync(database, shop.Now.AddDays(1), 40));
        await AssertAllThereAsync(shop, acknowledged);
        shop.Clock.Advance(TimeSpan.FromDays(2));
        await shop.StoreAsync(Some.Reading(takenAt: shop.Now));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    private static async Task AssertAllThereAsync(ShopFixture shop, List<Guid> acknowledged)
    {
        var stored = await shop.ReadAsync(db => db.Readings.Select(r => r.Id).ToListAsync());
        Assert.Empty(acknowledged.Except(stored));
        Assert.Equal(stored.Count * 2, await shop.CountAsync<Core.Readings.Measurement>());
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    private static async Task<List<Guid>> WriteAndKillAsync(TestDatabase database, DateTime start, int killAfter)
    {
        var writer = Path.Combine(AppContext.BaseDirectory, "ShopFluids.CrashWriter.dll");
        using var process = Process.Start(new ProcessStartInfo(
            "dotnet",
            [writer, database.Provider.Name, database.ConnectionString, Some.SumpTag, start.ToString("yyyy-MM-ddTHH:mm:ssZ", CultureInfo.InvariantCulture), "1000"])
        {
            UseShellExecute = false,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        }) ?? throw new InvalidOperationException("The writer could not be started.");
        var faults = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        var acknowledged = new List<Guid>();
        while (await process.StandardOutput.ReadLineAsync(TestContext.Current.CancellationToken) is { } line)
        {
            acknowledged.Add(Guid.Parse(line, CultureInfo.InvariantCulture));
            if (acknowledged.Count == killAfter)
            {
                // SIGKILL on Linux: no handler, no flush, no goodbye.
                process.Kill();
            }
        }

        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.True(process.ExitCode != 0 && acknowledged.Count >= killAfter, $"The writer ended by itself ({process.ExitCode}): {await faults}");
        return acknowledged;
    }
}
