using Microsoft.Extensions.Time.Testing;
using ShopFluids.Core.Board;
using ShopFluids.Core.Database;
using ShopFluids.Core.DemoData;
using ShopFluids.Core.Record;
using ShopFluids.Core.Record.Replay;
using ShopFluids.Core.Record.Sealing;
using ShopFluids.Core.Rounds;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Time;
using ShopFluids.Testing.Databases;
using Xunit;

namespace ShopFluids.Core.Tests.DemoData;

/// <summary>A demo on one database at one moment, and the pages that show it.</summary>
internal sealed class DemoRun
{
    private readonly TestDatabase _database;
    private readonly ShopDatabase _shop;
    private readonly RecordSealer _sealer = new(RecordKey.Make(RecordFingerprint.OfNothing));
    private readonly FakeTimeProvider _time;

    public DemoRun(TestDatabase database, DateTimeOffset now)
    {
        _database = database;
        _time = new FakeTimeProvider(now);
        _shop = new ShopDatabase(database.Factory, database.Provider, _sealer);
    }

    public List<DemoProgress> Progress { get; } = [];

    public Task<Result<LoadedDemo>> LoadAsync(DemoFolder folder) =>
        new DemoShop(_database.Factory, _database.Provider, _sealer, _time).LoadAsync(folder.Path, new Listener(Progress), TestContext.Current.CancellationToken);

    public Task<VerifyReport> VerifyAsync() => new VerifyQuery(_shop, _database.Provider, _sealer).RunAsync([], TestContext.Current.CancellationToken);

    public Task<ReplayReport> ReplayAsync() =>
        new ReplayQuery(_shop, new SetupCache(_shop, _database.Provider), _database.Provider).RunAsync(TestContext.Current.CancellationToken);

    public async Task<Dictionary<string, BoardRow>> BoardAsync()
    {
        var board = await new BoardQuery(_shop, new SetupCache(_shop, _database.Provider), new ShopClock(_time)).RunAsync(new BoardFilter(), TestContext.Current.CancellationToken);
        return board.Rows.Concat(board.Quiet).ToDictionary(r => r.Tag, StringComparer.Ordinal);
    }

    public Task<RoundPage> RoundAsync() => new RoundPageQuery(_shop, new SetupCache(_shop, _database.Provider), new ShopClock(_time)).RunAsync(TestContext.Current.CancellationToken);

    private sealed class Listener(List<DemoProgress> heard) : IProgress<DemoProgress>
    {
        public void Report(DemoProgress value) => heard.Add(value);
    }
}
