using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Flags;
using ShopFluids.Core.ShopFlags;

namespace ShopFluids.Web.Startup;

/// <summary>Once a minute lets the passing of time raise its flags. Every instance does so; the writers' lock makes them take turns.</summary>
internal sealed class OverdueTimer(NoticeOverdueHandler handler, NoticeShopFlagsHandler shopFlags, EscalateFlagsHandler escalate, TimeProvider time, ILogger<OverdueTimer> log) : BackgroundService
{
    private static readonly TimeSpan Period = TimeSpan.FromMinutes(1);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(Period, time);
        try
        {
            do
            {
                await NoticeAsync(stoppingToken);
            }
            while (await timer.WaitForNextTickAsync(stoppingToken));
        }
        catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
        {
            log.OverdueTimerStopped();
        }
    }

    private async Task NoticeAsync(CancellationToken cancellationToken)
    {
        try
        {
            var raised = await handler.HandleAsync(cancellationToken);
            if (raised > 0)
            {
                log.OverdueNoticed(raised);
            }

            if (await shopFlags.HandleAsync(cancellationToken) is > 0 and var found)
            {
                log.ShopFlagsNoticed(found);
            }

            if (await escalate.HandleAsync(cancellationToken) is > 0 and var escalated)
            {
                log.FlagsEscalated(escalated);
            }
        }
        catch (Exception failure) when (failure is DbException or DbUpdateException or InvalidOperationException)
        {
            // The database is away or busy; the next minute notices the same.
            log.OverdueFailed(failure);
        }
    }
}
