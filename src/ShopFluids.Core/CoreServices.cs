using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using ShopFluids.Core.Bench;
using ShopFluids.Core.Bench.Sumps;
using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Shutdowns;
using ShopFluids.Core.Care.Templates;
using ShopFluids.Core.Charges;
using ShopFluids.Core.CleanOuts;
using ShopFluids.Core.Database;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Escalations;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Instruments;
using ShopFluids.Core.Limits.Effects;
using ShopFluids.Core.Live;
using ShopFluids.Core.Patterns;
using ShopFluids.Core.Photos;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Readings.Corrections;
using ShopFluids.Core.Record;
using ShopFluids.Core.Record.Sealing;
using ShopFluids.Core.Rejudging;
using ShopFluids.Core.Rounds;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Setup.MachineLists;
using ShopFluids.Core.ShopFlags;
using ShopFluids.Core.Slides;
using ShopFluids.Core.Stores;
using ShopFluids.Core.Time;
using ShopFluids.Core.Tuning;

namespace ShopFluids.Core;

public static class CoreServices
{
    /// <summary>
    /// The commands and queries. They hold no state of their own and open a context for each operation, hence singletons. The
    /// host adds the context factory, the provider and the clock, and gives the sealer its key; a host with a sealer of its own adds it first.
    /// </summary>
    public static IServiceCollection AddShopFluidsCore(this IServiceCollection services)
    {
        services.TryAddSingleton(_ => new RecordSealer());
        return services
            .AddSingleton<ShopDatabase>()
            .AddSingleton<ShopClock>()
            .AddSingleton<ShopNews>()
            .AddSingleton<SetupCache>()
            .AddReadings()
            .AddCharges()
            .AddCare()
            .AddSetup()
            .AddRecord()
            .AddStores()
            .AddBench();
    }

    private static IServiceCollection AddReadings(this IServiceCollection services) => services
        .AddSingleton<RecordReadingHandler>()
        .AddSingleton<PreviewReadingQuery>()
        .AddSingleton<CorrectionPageQuery>()
        .AddSingleton<PhotosQuery>()
        .AddSingleton<SkipStopsHandler>();

    private static IServiceCollection AddCharges(this IServiceCollection services) => services
        .AddSingleton<FillSumpHandler>()
        .AddSingleton<DrainSumpHandler>()
        .AddSingleton<NoteCleanOutStepHandler>()
        .AddSingleton<FinishCleanOutHandler>()
        .AddSingleton<BreakOffCleanOutHandler>()
        .AddSingleton<StartSlideHandler>()
        .AddSingleton<EndSlideHandler>()
        .AddSingleton<SlidesQuery>()
        .AddSingleton<CleanOutPageQuery>()
        .AddSingleton<CleanOutsQuery>()
        .AddSingleton<RecordAdditionHandler>()
        .AddSingleton<NoteDoseHandler>()
        .AddSingleton<StrikeDoseHandler>()
        .AddSingleton<DosesQuery>()
        .AddSingleton<LotByNumberQuery>()
        .AddSingleton<AdjustmentQuery>();

    private static IServiceCollection AddCare(this IServiceCollection services) => services
        .AddSingleton<EndTaskHandler>()
        .AddSingleton<AssignTaskHandler>()
        .AddSingleton<RedateTaskHandler>()
        .AddSingleton<PlanMissingHandler>()
        .AddSingleton<CloseFlagHandler>()
        .AddSingleton<NoticeOverdueHandler>()
        .AddSingleton(EscalationChannels.None)
        .AddSingleton<EscalationOutbox>()
        .AddSingleton<EscalateFlagsHandler>()
        .AddSingleton<NoticeShopFlagsHandler>()
        .AddSingleton<AnswerShopFlagHandler>()
        .AddSingleton<ShopFlagsQuery>();

    private static IServiceCollection AddSetup(this IServiceCollection services) => services
        .AddSingleton<SaveSiteHandler>()
        .AddSingleton<AddAreaHandler>()
        .AddSingleton<ChangeAreaHandler>()
        .AddSingleton<AddSumpHandler>()
        .AddSingleton<ChangeSumpHandler>()
        .AddSingleton<AddMachineListHandler>()
        .AddSingleton<RetireSumpHandler>()
        .AddSingleton<AddFluidHandler>()
        .AddSingleton<ChangeFluidHandler>()
        .AddSingleton<ChangeMachineHandler>()
        .AddSingleton<ReceiveLotHandler>()
        .AddSingleton<QuarantineLotHandler>()
        .AddSingleton<SetLimitsHandler>()
        .AddSingleton<LimitsPastQuery>()
        .AddSingleton<SetRuleHandler>()
        .AddSingleton<RejudgeHandler>()
        .AddSingleton<RuleChangesQuery>()
        .AddSingleton<AddCareStepHandler>()
        .AddSingleton<ApplyCareTemplateHandler>()
        .AddSingleton<StopCareStepHandler>()
        .AddSingleton<PlanShutdownHandler>()
        .AddSingleton<EndShutdownHandler>()
        .AddSingleton<ShutdownWorkQuery>()
        .AddSingleton<AddInstrumentHandler>()
        .AddSingleton<ChangeInstrumentHandler>()
        .AddSingleton<ChangeWaterSourceHandler>()
        .AddSingleton<NoteInstrumentCheckHandler>()
        .AddSingleton<AddWaterSourceHandler>()
        .AddSingleton<ShipParametersHandler>()
        .AddSingleton<LotsQuery>();

    private static IServiceCollection AddRecord(this IServiceCollection services) => services
        .AddSingleton<VerifyQuery>()
        .AddSingleton<SealStandingQuery>()
        .AddSingleton<BeginSealHandler>()
        .AddSingleton<Record.Trail.TrailQuery>()
        .AddSingleton<Record.Replay.ReplayQuery>();

    private static IServiceCollection AddStores(this IServiceCollection services) => services
        .AddSingleton<StoresQuery>()
        .AddSingleton<LotTraceQuery>()
        .AddSingleton<InstrumentChecksQuery>()
        .AddSingleton<AdjustLotHandler>();

    private static IServiceCollection AddBench(this IServiceCollection services) => services
        .AddSingleton<BenchList>()
        .AddSingleton<BenchSumpQuery>()
        .AddSingleton<PatternPageQuery>();
}
