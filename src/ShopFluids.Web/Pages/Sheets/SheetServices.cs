using ShopFluids.Core.Sheets;
using ShopFluids.Core.Sheets.DosingLogs;
using ShopFluids.Core.Sheets.InstrumentChecks;
using ShopFluids.Core.Sheets.LotTraces;
using ShopFluids.Core.Sheets.MonthlySummaries;
using ShopFluids.Core.Sheets.OverdueWork;
using ShopFluids.Core.Sheets.WasteLogs;
using ShopFluids.Web.Pages.Sheets.Jobs;

namespace ShopFluids.Web.Pages.Sheets;

/// <summary>The sheets, and the queue of files that take long.</summary>
internal static class SheetServices
{
    public static IServiceCollection AddSheets(this IServiceCollection services) => services
        .AddSingleton<HistorySheetQuery>()
        .AddSingleton<RoundSheetQuery>()
        .AddSingleton<SumpLabelsQuery>()
        .AddSingleton<LotSheetQuery>()
        .AddSingleton<OverdueSheetQuery>()
        .AddSingleton<WasteSheetQuery>()
        .AddSingleton<DoseSheetQuery>()
        .AddSingleton<MonthSheetQuery>()
        .AddSingleton<InstrumentSheetQuery>()
        .AddSingleton<HistoryFile>()
        .AddSingleton<SheetJobs>()
        .AddHostedService<SheetWorker>();
}
