using System.Globalization;
using ShopFluids.Benchmarks;
using ShopFluids.Core.Database;
using ShopFluids.Data.Postgres;
using ShopFluids.Data.Sqlite;

// The most that storing a reading through HTTP may cost, as a multiple of one raw insert and commit; and a pass of the planner through ten thousand
// sumps of eight steps, as a multiple of one statement that only selects what there is to plan.
const double Target = 3;

// One evaluation of a year of weekly readings has a millisecond.
const double EvaluationMilliseconds = 1;

// Twenty thousand readings a second go through all of the rules on one core.
const double RulesMilliseconds = 1 / 20.0;

// What a reading costs among ten thousand, as a multiple of what it costs among one thousand: linear, and a tenth for what measuring varies by.
const double GrowthTarget = 1.1;

// What a reading and the planning that follows cost among ten thousand sumps, as a multiple of what they cost among one hundred.
const double PlanGrowthTarget = 1.3;

// What proving the record may cost, as a multiple of only hashing its bytes.
const double VerifyTarget = 3;

// What the entry page may cost, as a multiple of the same page as a file after the queries of the whole page by hand: where nothing was recorded
// about its sump, and a moment after a reading was. And where it has to be drawn first, as in the moment of an act.
const double PageTarget = 2;
const double DrawnPageTarget = 5;

// What the board of a generated shop may cost up to its first content, as a multiple of the page as a file after the queries by hand; ten times
// the history, as a multiple of what a tenth costs; the managed memory of a board that is open; and what is in use after they were closed, as a
// multiple of what was before.
const double BoardTarget = 2;
const double HistoryTarget = 1.2;
const double CircuitMegabytes = 1;
const double ClosedTarget = 1.15;

// What a history sheet may cost, as a multiple of only drawing what stands on it; ten times the readings, as a multiple of the one; and a file
// of a hundred sheets, as a multiple of a hundred files of one.
const double SheetTarget = 1.5;
const double SheetGrowthTarget = 11;
const double SheetsTarget = 1.1;

var time = new WallClock();
var folder = Directory.CreateTempSubdirectory("shopfluids-bench-").FullName;
try
{
    Console.WriteLine("name\tours_ms\tfloor_ms\tratio\ttarget");
    var server = Environment.GetEnvironmentVariable("SHOPFLUIDS_TEST_POSTGRES_CONNECTION")
        ?? throw new InvalidOperationException("SHOPFLUIDS_TEST_POSTGRES_CONNECTION is not set; deploy/dev/bench.sh starts a server and sets it.");
    var missed = false;
    if (IsWanted("evaluate"))
    {
        missed |= Report("evaluate-sump-year", EvaluateSump.BestMilliseconds(52, runs: 400), EvaluationMilliseconds, 1);
        missed |= Report("evaluate-sump-growth", EvaluateSump.BestMilliseconds(10_000, runs: 10) / 10, EvaluateSump.BestMilliseconds(1_000, runs: 40), GrowthTarget);
        missed |= Report("evaluate-rules", EvaluateRules.BestMillisecondsForOne(), RulesMilliseconds, 1);
    }

    if (IsWanted("store-reading"))
    {
        var sqlite = $"Data Source={Path.Combine(folder, "shop.db")}";
        missed |= await MeasureAsync("store-reading-sqlite", new SqliteProvider(), sqlite, await Floor.SqliteAsync(folder));
        var postgres = await BenchDatabase.CreateAsync(server, "readings");
        missed |= await MeasureAsync("store-reading-postgres", new PostgresProvider(), postgres, await Floor.PostgresAsync(postgres));
    }

    if (IsWanted("plan"))
    {
        missed |= await PlanAsync(new SqliteProvider(), $"Data Source={Path.Combine(folder, "plan.db")}");
        missed |= await PlanAsync(new PostgresProvider(), await BenchDatabase.CreateAsync(server, "plan"));
    }

    if (IsWanted("entry-page"))
    {
        missed |= await OpenEntryAsync(new SqliteProvider(), $"Data Source={Path.Combine(folder, "entry.db")}");
        missed |= await OpenEntryAsync(new PostgresProvider(), await BenchDatabase.CreateAsync(server, "entry"));
    }

    if (IsWanted("board"))
    {
        missed |= await OpenBoardAsync(new SqliteProvider(), name => Task.FromResult($"Data Source={Path.Combine(folder, $"{name}.db")}"));
        missed |= await OpenBoardAsync(new PostgresProvider(), name => BenchDatabase.CreateAsync(server, name));
    }

    if (IsWanted("verify-record"))
    {
        var (ours, least) = await new VerifyRecord(new SqliteProvider(), $"Data Source={Path.Combine(folder, "record.db")}").RunAsync();
        missed |= Report("verify-record", ours, least, VerifyTarget);
    }

    if (IsWanted("history-sheet"))
    {
        var sheet = PrintHistory.Sheet(520);
        var (one, drawn) = PrintHistory.BesideFloor(sheet);
        missed |= Report("history-sheet", one, drawn, SheetTarget);
        var (tenfold, single) = PrintHistory.BesideOne([PrintHistory.Sheet(5200)], sheet, times: 10);
        missed |= Report("history-sheet-growth", tenfold, single, SheetGrowthTarget);
        var year = PrintHistory.Sheet(52);
        var (hundred, ofOne) = PrintHistory.BesideOne([.. Enumerable.Repeat(year, 100)], year, times: 100);
        missed |= Report("history-sheets-100", hundred, 100 * ofOne, SheetsTarget);
    }

    return missed ? 1 : 0;
}
finally
{
    Directory.Delete(folder, recursive: true);
}

// What is named, or all of it.
bool IsWanted(string name) => args.Length == 0 || args.Contains(name);

async Task<bool> MeasureAsync(string name, IDatabaseProvider provider, string connectionString, Floor floor)
{
    await using (floor)
    {
        var token = await BenchShop.MakeAsync(provider, connectionString, time, StoreReading.Sumps);
        await using var server = await BenchServer.StartAsync(folder, provider.Name, connectionString);
        var (ours, least) = await new StoreReading(server.Address, token, floor, time).RunAsync();
        return Report(name, ours, least, Target);
    }
}

async Task<bool> OpenEntryAsync(IDatabaseProvider provider, string connectionString)
{
    var token = await BenchShop.MakeAsync(provider, connectionString, time, sumps: 1);
    await using var server = await BenchServer.StartAsync(folder, provider.Name, connectionString);
    var page = await new EntryPage(server.Address, token, time).RunAsync(folder, provider.Name, connectionString);
    var missed = Report($"entry-page-{provider.Name}", page.AsItWas.Ours, page.AsItWas.Floor, PageTarget);
    missed |= Report($"entry-page-after-reading-{provider.Name}", page.AfterReading.Ours, page.AfterReading.Floor, PageTarget);
    return missed | Report($"entry-page-drawn-{provider.Name}", page.DrawnFirst.Ours, page.DrawnFirst.Floor, DrawnPageTarget);
}

// The short history has as many sumps and a tenth of the years, but not less than one: then the long one has ten.
async Task<bool> OpenBoardAsync(IDatabaseProvider provider, Func<string, Task<string>> databaseOf)
{
    var (sumps, years) = (GeneratedBench.Sumps, GeneratedBench.Years);
    var board = await MeasureBoardAsync(provider, await databaseOf("board"), sumps, years);
    var missed = Report($"board-{provider.Name}", board.Ours, board.Floor, BoardTarget);
    missed |= Report($"board-circuit-megabytes-{provider.Name}", board.BytesOfACircuit / (1 << 20), CircuitMegabytes, 1);
    missed |= Report($"board-megabytes-after-closing-{provider.Name}", board.BytesAfter / (1 << 20), board.BytesBefore / (1 << 20), ClosedTarget);
    var shorter = Math.Max(1, years / 10);
    var few = await MeasureBoardAsync(provider, await databaseOf("board_short"), sumps, shorter);
    var many = shorter * 10 == years ? board : await MeasureBoardAsync(provider, await databaseOf("board_long"), sumps, shorter * 10);
    return missed | Report($"board-history-{provider.Name}", many.Ours, few.Ours, HistoryTarget);
}

async Task<BoardMeasures> MeasureBoardAsync(IDatabaseProvider provider, string connectionString, int sumps, int years)
{
    var signIn = await GeneratedBench.MakeAsync(provider, connectionString, time, sumps, years);
    await using var server = await BenchServer.StartAsync(folder, provider.Name, connectionString);
    return await new BoardPage(server, signIn.SignInName, signIn.Password).RunAsync(folder, provider.Name, connectionString);
}

async Task<bool> PlanAsync(IDatabaseProvider provider, string connectionString)
{
    await BenchShop.MakeAsync(provider, connectionString, time, sumps: 1);
    var (pass, statement, many, few) = await new PlanShop(provider, connectionString, time).RunAsync();
    var missed = Report($"plan-pass-{provider.Name}", pass, statement, Target);
    return missed | Report($"plan-after-reading-growth-{provider.Name}", many, few, PlanGrowthTarget);
}

static bool Report(string name, double ours, double floor, double target)
{
    var ratio = ours / floor;
    Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{name}\t{ours:0.000}\t{floor:0.000}\t{ratio:0.00}\t{target:0.00}"));
    return ratio > target;
}
