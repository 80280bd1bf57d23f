using System.Data.Common;
using Microsoft.EntityFrameworkCore;

namespace ShopFluids.Web.Escalations;

/// <summary>Every half minute sends what waits. Every instance does so; a message is one instance's at a time.</summary>
internal sealed class EscalationTimer(EscalationDelivery delivery, TimeProvider time, ILogger<EscalationTimer> log) : BackgroundService
{
    private static readonly TimeSpan Period = TimeSpan.FromSeconds(30);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(Period, time);
        try
        {
            do
            {
                await SendAsync(stoppingToken);
            }
            while (await timer.WaitForNextTickAsync(stoppingToken));
        }
        catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
        {
            log.EscalationTimerStopped();
        }
    }

    private async Task SendAsync(CancellationToken cancellationToken)
    {
        try
        {
            await delivery.SendWaitingAsync(cancellationToken);
        }
        catch (Exception failure) when (failure is DbException or DbUpdateException or InvalidOperationException)
        {
            // The database is away or busy; the next time sends the same.
            log.EscalationTimerFailed(failure);
        }
    }
}
