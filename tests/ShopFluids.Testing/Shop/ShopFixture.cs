using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Time.Testing;
using Npgsql;
using ShopFluids.Core;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.People;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Record.Sealing;
using ShopFluids.Core.Setup;
using ShopFluids.Testing.Databases;

namespace ShopFluids.Testing.Shop;

/// <summary>
/// One program on one database, with its clock held at <see cref="Some.Start"/>. <see cref="OpenAsync"/> sets a small shop up through
/// the commands that the pages use: one area, sump S-07 with its machine, a fluid, a lot, water and an open charge.
/// </summary>
public sealed class ShopFixture : IAsyncDisposable
{
    private readonly ServiceProvider _services;
    private readonly Action<IServiceCollection>? _also;

    private ShopFixture(TestDatabase database, Action<IServiceCollection>? also)
    {
        Database = database;
        _also = also;
        Clock = new FakeTimeProvider(new DateTimeOffset(Some.Start));
        var services = new ServiceCollection()
            .AddSingleton(database.Factory)
            .AddSingleton(database.Provider)
            .AddSingleton<TimeProvider>(Clock)
            .AddSingleton<ILoggerFactory>(_ => LoggerFactory.Create(_ => { }))
            .AddSingleton(typeof(ILogger<>), typeof(Logger<>))
            .Configure<PasswordHasherOptions>(o => o.IterationCount = 1)
            .AddShopFluidsCore()
            .AddPeople();
        also?.Invoke(services);
        _services = services.BuildServiceProvider();
    }

    public TestDatabase Database { get; }

    public FakeTimeProvider Clock { get; }

    public DateTime Now => Clock.GetUtcNow().UtcDateTime;

    public Guid SiteId { get; private set; }

    public Guid AreaId { get; } = Some.Id();

    public Guid SumpId { get; } = Some.Id();

    public Guid WaterId { get; } = Some.Id();

    public Guid FluidId { get; } = Some.Id();

    public Guid LotId { get; } = Some.Id();

    public Guid ChargeId { get; } = Some.Id();

    /// <summary>A program without a shop: a fresh database and nothing set up.</summary>
    public static ShopFixture Empty(TestDatabase database, Action<IServiceCollection>? also = null) => new(database, also);

    /// <param name="site">Another site than <see cref="Some.Site"/>.</param>
    /// <param name="also">Services besides those of the core.</param>
    public static async Task<ShopFixture> OpenAsync(TestDatabase database, SaveSite? site = null, bool isFilled = true, Action<IServiceCollection>? also = null)
    {
        var shop = new ShopFixture(database, also);
        await shop.SetUpAsync(site ?? Some.Site(), isFilled);
        return shop;
    }

    /// <summary>Another instance of the program on the same database: its own caches, the same clock time.</summary>
    public ShopFixture Another()
    {
        var other = new ShopFixture(Database, _also);
        other.Clock.SetUtcNow(Clock.GetUtcNow());
        return other;
    }

    public T Get<T>()
        where T : notnull => _services.GetRequiredService<T>();

    public Task<Result<RecordedReading>> RecordAsync(RecordReading command, Actor? actor = null) =>
        Get<RecordReadingHandler>().HandleAsync(command, actor ?? Some.Operator, default);

    /// <summary>Stores a reading that must be accepted.</summary>
    public async Task<ReadingOutcome> StoreAsync(RecordReading command, Actor? actor = null) =>
        (await RecordAsync(command, actor)).Done().Outcome;

    public Task<Result<RecordedAddition>> AddAsync(RecordAddition command, bool isSupervisor = false) =>
        Get<RecordAdditionHandler>().HandleAsync(command, isSupervisor ? Some.Supervisor : Some.Operator, isSupervisor, default);

    public Task<Result<FilledSump>> FillAsync(FillSump command, bool isSupervisor = false) =>
        Get<FillSumpHandler>().HandleAsync(command, isSupervisor ? Some.Supervisor : Some.Operator, isSupervisor, default);

    public Task<Result<DrainedSump>> DrainAsync(DateTime at, decimal litres = 150, Guid? removalId = null, string tag = Some.SumpTag) =>
        Get<DrainSumpHandler>().HandleAsync(new DrainSump(removalId ?? Some.Id(), tag, at, litres), Some.Operator, default);

    public async Task<AddCareStep> StepAsync(AddCareStep step)
    {
        (await Get<AddCareStepHandler>().HandleAsync(step, Some.Supervisor, default)).Done();
        return step;
    }

    public async Task InstrumentAsync(AddInstrument instrument) =>
        (await Get<AddInstrumentHandler>().HandleAsync(instrument, Some.Supervisor, default)).Done();

    /// <summary>Another sump with its machine, empty.</summary>
    public async Task<Guid> SumpAsync(AddSump command)
    {
        (await Get<AddSumpHandler>().HandleAsync(command, Some.Supervisor, default)).Done();
        return command.Id;
    }

    public Task<ShopSetup> SetupAsync() => Get<SetupCache>().CurrentAsync(default);

    public Task<VerifyReport> VerifyAsync(params RecordFingerprint[] kept) => Get<VerifyQuery>().RunAsync(kept, default);

    /// <summary>Reads with a context of its own.</summary>
    public async Task<T> ReadAsync<T>(Func<ShopFluidsDbContext, Task<T>> read)
    {
        await using var db = Database.Open();
        return await read(db);
    }

    public Task<int> CountAsync<T>()
        where T : class => ReadAsync(db => db.Set<T>().CountAsync());

    /// <summary>How many rows each table holds, and the head of the record: equal before and after means that nothing was stored.</summary>
    public Task<string> FootprintAsync() => ReadAsync(async db =>
    {
        var head = await db.RecordHead.AsNoTracking().SingleAsync();
        return $"{head.Sequence} {head.Hash} {head.SetupVersion} "
            + $"readings {await db.Readings.CountAsync()} measurements {await db.Measurements.CountAsync()} flags {await db.Flags.CountAsync()} "
            + $"tasks {await db.CareTasks.CountAsync()} additions {await db.Additions.CountAsync()} removals {await db.Removals.CountAsync()} "
            + $"clean-outs {await db.CleanOuts.CountAsync()} steps {await db.CleanOutSteps.CountAsync()} skips {await db.SkippedStops.CountAsync()} photos {await db.Photos.CountAsync()} {await db.PhotoContents.CountAsync()} "
            + $"charges {await db.Charges.CountAsync()} entries {await db.RecordEntries.CountAsync()} lots {await db.FluidLots.SumAsync(l => (double)l.RemainingLitres)} "
            + $"standings {string.Join(',', await db.Standings.OrderBy(s => s.SumpId).Select(s => s.Version).ToListAsync())}";
    });

    /// <summary>Gives the idle connections back: xunit keeps a database until the last test of all, and hundreds of pools are more than a server holds.</summary>
    public async ValueTask DisposeAsync()
    {
        await _services.DisposeAsync();
        if (Database.Engine == DatabaseEngine.Postgres)
        {
            await using var db = Database.Open();
            NpgsqlConnection.ClearPool((NpgsqlConnection)db.Database.GetDbConnection());
        }
    }

    private async Task SetUpAsync(SaveSite site, bool isFilled)
    {
        SiteId = site.Id;
        await Get<ShipParametersHandler>().HandleAsync(default);
        (await Get<SaveSiteHandler>().HandleAsync(site, Some.Supervisor, default)).Done();
        (await Get<AddAreaHandler>().HandleAsync(new AddArea(AreaId, "Turning", 1), Some.Supervisor, default)).Done();
        (await Get<AddWaterSourceHandler>().HandleAsync(Some.Water(WaterId), Some.Supervisor, default)).Done();
        (await Get<AddFluidHandler>().HandleAsync(Some.Fluid(FluidId), Some.Supervisor, default)).Done();
        (await Get<ReceiveLotHandler>().HandleAsync(Some.Lot(LotId, FluidId), Some.Supervisor, default)).Done();
        await SumpAsync(Some.Sump(SumpId, AreaId, waterId: WaterId));
        if (isFilled)
        {
            (await FillAsync(Some.Fill(ChargeId, FluidId, LotId))).Done();
        }
    }
}
