using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Logging.Abstractions;
using ShopFluids.Core.Care;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Instruments;
using ShopFluids.Core.People;
using ShopFluids.Core.People.Pins;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record.Sealing;
using ShopFluids.Core.Setup;
using ShopFluids.Core.ShopFlags;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.DemoData.Commands;

/// <summary>The shop's own commands, registered as the host does it, on a clock of choice.</summary>
internal sealed class DemoCommands : IAsyncDisposable
{
    private readonly ServiceProvider _services;
    private readonly IDbContextFactory<ShopFluidsDbContext> _contexts;

    public DemoCommands(IDbContextFactory<ShopFluidsDbContext> contexts, IDatabaseProvider provider, RecordSealer sealer, TimeProvider time)
    {
        _contexts = contexts;
        _services = new ServiceCollection()
            .AddSingleton(contexts)
            .AddSingleton(provider)
            .AddSingleton(sealer)
            .AddSingleton(time)
            .AddSingleton<ILoggerFactory>(NullLoggerFactory.Instance)
            .AddSingleton(typeof(ILogger<>), typeof(Logger<>))
            .AddShopFluidsCore()
            .AddPeople()
            .BuildServiceProvider();
    }

    public ShopClock Clock => Get<ShopClock>();

    public SetupCache Setups => Get<SetupCache>();

    public SaveSiteHandler SaveSite => Get<SaveSiteHandler>();

    public ShipParametersHandler ShipParameters => Get<ShipParametersHandler>();

    public AddAreaHandler AddArea => Get<AddAreaHandler>();

    public AddWaterSourceHandler AddWaterSource => Get<AddWaterSourceHandler>();

    public AddInstrumentHandler AddInstrument => Get<AddInstrumentHandler>();

    public NoteInstrumentCheckHandler NoteInstrumentCheck => Get<NoteInstrumentCheckHandler>();

    public AddFluidHandler AddFluid => Get<AddFluidHandler>();

    public ReceiveLotHandler ReceiveLot => Get<ReceiveLotHandler>();

    public QuarantineLotHandler QuarantineLot => Get<QuarantineLotHandler>();

    public AddSumpHandler AddSump => Get<AddSumpHandler>();

    public AddCareStepHandler AddCareStep => Get<AddCareStepHandler>();

    public MakeAccountHandler MakeAccount => Get<MakeAccountHandler>();

    public SetPinHandler SetPin => Get<SetPinHandler>();

    public MakeTokenHandler MakeToken => Get<MakeTokenHandler>();

    public RevokeTokenHandler RevokeToken => Get<RevokeTokenHandler>();

    public FillSumpHandler Fill => Get<FillSumpHandler>();

    public DrainSumpHandler Drain => Get<DrainSumpHandler>();

    public RecordAdditionHandler Add => Get<RecordAdditionHandler>();

    public NoteDoseHandler Dose => Get<NoteDoseHandler>();

    public RecordReadingHandler Read => Get<RecordReadingHandler>();

    public EndTaskHandler EndTask => Get<EndTaskHandler>();

    public AssignTaskHandler AssignTask => Get<AssignTaskHandler>();

    public CloseFlagHandler CloseFlag => Get<CloseFlagHandler>();

    public NoticeOverdueHandler NoticeOverdue => Get<NoticeOverdueHandler>();

    public NoticeShopFlagsHandler NoticeShopFlags => Get<NoticeShopFlagsHandler>();

    public EscalateFlagsHandler EscalateFlags => Get<EscalateFlagsHandler>();

    public Task<ShopFluidsDbContext> OpenAsync(CancellationToken cancellationToken) => _contexts.CreateDbContextAsync(cancellationToken);

    public async Task<Guid> PersonAsync(string signInName, CancellationToken cancellationToken)
    {
        await using var db = await OpenAsync(cancellationToken);
        return await db.Users.Where(p => p.UserName == signInName).Select(p => p.Id).SingleAsync(cancellationToken);
    }

    public ValueTask DisposeAsync() => _services.DisposeAsync();

    private T Get<T>()
        where T : notnull => _services.GetRequiredService<T>();
}

internal static class DemoResults
{
    /// <summary>The demo's data only asks for what the shop allows; a refusal is a fault in the data, so the load stops with it.</summary>
    /// <exception cref="InvalidOperationException">The command was refused.</exception>
    public static T Done<T>(this Result<T> result)
        where T : class =>
        result.Value ?? throw new InvalidOperationException($"The demo data does not fit: {Describe(result.Error)}");

    private static string Describe(Error? error) => error is FieldErrors fields ? string.Join("; ", fields.Fields) : $"{error}";
}
