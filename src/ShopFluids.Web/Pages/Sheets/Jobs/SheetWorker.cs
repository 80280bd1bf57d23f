namespace ShopFluids.Web.Pages.Sheets.Jobs;

/// <summary>Makes the files that wait, as long as the program runs.</summary>
internal sealed class SheetWorker(SheetJobs jobs, ILogger<SheetWorker> log) : BackgroundService
{
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        try
        {
            await jobs.RunAsync(stoppingToken);
        }
        catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
        {
            log.SheetWorkerStopped();
        }
    }
}
