using System.Net.Mail;
using System.Security.Authentication;
using ShopFluids.Core.Escalations;

namespace ShopFluids.Web.Escalations;

/// <summary>Sends the messages that wait, one after the other, and notes how it went.</summary>
internal sealed class EscalationDelivery(EscalationOutbox outbox, IEnumerable<IEscalationSender> senders, TimeProvider time, ILogger<EscalationDelivery> log)
{
    /// <summary>For one message; well within <see cref="EscalationOutbox.Lease"/>.</summary>
    public static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);

    private readonly Dictionary<EscalationChannel, IEscalationSender> _senders = senders.ToDictionary(s => s.Channel);

    /// <returns>How many were sent.</returns>
    public async Task<int> SendWaitingAsync(CancellationToken cancellationToken)
    {
        var sent = 0;
        while (await outbox.TakeAsync([.. _senders.Keys], cancellationToken) is { } message)
        {
            if (await TryAsync(message, cancellationToken) is { } fault)
            {
                // Noted also while the program stops: else the message would wait for its time to be over.
                if (await outbox.NoteFailedAsync(message, fault, CancellationToken.None))
                {
                    log.EscalationGivenUp(message.Id, message.Channel, message.Tries, fault);
                }
                else
                {
                    log.EscalationFailed(message.Id, message.Channel, message.Tries, fault);
                }
            }
            else
            {
                sent++;
                await outbox.NoteSentAsync(message, CancellationToken.None);
                log.EscalationSent(message.Id, message.Channel, message.Tries);
            }
        }

        return sent;
    }

    private async Task<string?> TryAsync(EscalationMessage message, CancellationToken cancellationToken)
    {
        using var patience = new CancellationTokenSource(Patience, time);
        using var either = CancellationTokenSource.CreateLinkedTokenSource(patience.Token, cancellationToken);
        try
        {
            return await _senders[message.Channel].SendAsync(message, either.Token);
        }
        catch (Exception failure) when (failure is HttpRequestException or SmtpException or IOException or AuthenticationException or InvalidOperationException or OperationCanceledException)
        {
            return $"{failure.GetType().Name}: {failure.Message}";
        }
    }
}
