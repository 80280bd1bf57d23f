using System.Globalization;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using ShopFluids.Core;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.CrashWriter;
using ShopFluids.Data.Postgres;
using ShopFluids.Data.Sqlite;

// Stores readings one after another through the real handler and says each id only after the handler has answered. A test kills this
// process in the middle; every id that was said must be there afterwards.
// Arguments: sqlite or postgres, connection string, sump tag, time of the first reading, how many.
IDatabaseProvider provider = args[0] == "sqlite" ? new SqliteProvider() : new PostgresProvider();
var start = DateTime.Parse(args[3], CultureInfo.InvariantCulture, DateTimeStyles.AdjustToUniversal);
var clock = new CountingClock(new DateTimeOffset(start));
await using var services = new ServiceCollection()
    .AddDbContextFactory<ShopFluidsDbContext>(options => provider.Configure(options, args[1]))
    .AddSingleton(provider)
    .AddSingleton<TimeProvider>(clock)
    .AddSingleton<ILoggerFactory>(_ => LoggerFactory.Create(_ => { }))
    .AddSingleton(typeof(ILogger<>), typeof(Logger<>))
    .AddShopFluidsCore()
    .BuildServiceProvider();
var handler = services.GetRequiredService<RecordReadingHandler>();
var actor = new Actor(null, "Crash writer");
for (var n = 0; n < int.Parse(args[4], CultureInfo.InvariantCulture); n++)
{
    clock.Step();
    var now = clock.GetUtcNow().UtcDateTime;
    var command = new RecordReading(Guid.CreateVersion7(clock.GetUtcNow()), args[2], now, "", [new("concentration", null, 4 + (n % 6), null), new("level", null, 250 + (n % 50), null)]);
    var answer = await handler.HandleAsync(command, actor, CancellationToken.None);
    if (answer.Value is null)
    {
        await Console.Error.WriteLineAsync($"{answer.Error}");
        return 1;
    }

    await Console.Out.WriteLineAsync($"{command.Id}");
    await Console.Out.FlushAsync();
}

return 0;
