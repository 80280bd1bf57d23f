using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;

namespace ShopFluids.Web.Startup;

/// <summary>At the start and once an hour gives steps that have lost their task one. Every instance does so; the writers' lock makes them take turns.</summary>
internal sealed class CareTimer(PlanMissingHandler handler, TimeProvider time, ILogger<CareTimer> log) : BackgroundService
{
    private static readonly TimeSpan Period = TimeSpan.FromHours(1);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(Period, time);
        try
        {
            do
            {
                await PlanAsync(stoppingToken);
            }
            while (await timer.WaitForNextTickAsync(stoppingToken));
        }
        catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
        {
            log.CareTimerStopped();
        }
    }

    private async Task PlanAsync(CancellationToken cancellationToken)
    {
        try
        {
            var planned = await handler.HandleAsync(cancellationToken);
            if (planned > 0)
            {
                log.WorkPlanned(planned);
            }
        }
        catch (Exception failure) when (failure is DbException or DbUpdateException or InvalidOperationException)
        {
            // The database is away or busy; the next hour plans the same.
            log.PlanningFailed(failure);
        }
    }
}
