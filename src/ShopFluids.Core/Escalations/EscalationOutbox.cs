using System.Linq.Expressions;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Escalations;

/// <summary>A message that one instance has taken to send.</summary>
/// <param name="Tries">With this one.</param>
public sealed record EscalationMessage(Guid Id, EscalationChannel Channel, DateTime MadeAtUtc, EscalationContent Content, int Tries);

/// <summary>
/// The messages that wait. One is taken under the writers' lock, by one instance alone, and sent after the lock is given back: no write waits for
/// a server elsewhere. An instance that dies meanwhile leaves it to the others once its time is over, with the same id.
/// </summary>
public sealed class EscalationOutbox(ShopDatabase database, ShopClock clock)
{
    /// <summary>How long an instance has for one message; longer than any try may last.</summary>
    public static readonly TimeSpan Lease = TimeSpan.FromMinutes(2);

    /// <summary>After the first failure; doubled with each.</summary>
    public static readonly TimeSpan FirstWait = TimeSpan.FromMinutes(1);

    public static readonly TimeSpan LongestWait = TimeSpan.FromHours(1);

    /// <summary>A message so old is no help any more: the flag stands on the board.</summary>
    public static readonly TimeSpan GivenUpAfter = TimeSpan.FromDays(3);

    /// <summary>For how long what was sent or given up is kept.</summary>
    public static readonly TimeSpan KeptFor = TimeSpan.FromDays(30);

    /// <summary>The message that is due first; null when none is.</summary>
    public async Task<EscalationMessage?> TakeAsync(IReadOnlyList<EscalationChannel> channels, CancellationToken cancellationToken)
    {
        var due = Due(channels, clock.UtcNow);

        // A look without the lock first: most times nothing waits.
        await using (var db = await database.ReadAsync(cancellationToken))
        {
            if (!await db.EscalationNotices.AnyAsync(due, cancellationToken))
            {
                return null;
            }
        }

        await using var write = await database.WriteAsync(cancellationToken);
        var now = clock.UtcNow;
        if (await write.Database.EscalationNotices.Where(Due(channels, now)).OrderBy(n => n.MadeAtUtc).ThenBy(n => n.Id).FirstOrDefaultAsync(cancellationToken) is not { } notice)
        {
            return null;
        }

        notice.Take(now, Lease);
        var old = now - KeptFor;
        await write.Database.EscalationNotices.Where(n => n.EndedAtUtc < old).ExecuteDeleteAsync(cancellationToken);
        await write.CommitUnrecordedAsync(cancellationToken);
        return new(notice.Id, notice.Channel, notice.MadeAtUtc, notice.Content, notice.Tries);
    }

    public async Task NoteSentAsync(EscalationMessage message, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(message);
        await using var write = await database.WriteAsync(cancellationToken);
        if (await write.Database.EscalationNotices.FirstOrDefaultAsync(n => n.Id == message.Id && n.EndedAtUtc == null, cancellationToken) is { } notice)
        {
            notice.Send(clock.UtcNow);
            await write.CommitUnrecordedAsync(cancellationToken);
        }
    }

    /// <returns>Whether it was given up.</returns>
    public async Task<bool> NoteFailedAsync(EscalationMessage message, string fault, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(message);
        ArgumentNullException.ThrowIfNull(fault);
        await using var write = await database.WriteAsync(cancellationToken);

        // Another instance that has taken it since has the say.
        if (await write.Database.EscalationNotices.FirstOrDefaultAsync(n => n.Id == message.Id && n.EndedAtUtc == null && n.Tries == message.Tries, cancellationToken) is not { } notice)
        {
            return false;
        }

        var now = clock.UtcNow;
        var isGivenUp = now - notice.MadeAtUtc >= GivenUpAfter;
        if (isGivenUp)
        {
            notice.GiveUp(fault, now);
        }
        else
        {
            notice.Fail(fault, now + WaitAfter(notice.Tries));
        }

        await write.CommitUnrecordedAsync(cancellationToken);
        return isGivenUp;
    }

    /// <summary>How long to wait after so many failures.</summary>
    public static TimeSpan WaitAfter(int tries) =>
        tries >= 1 && FirstWait * Math.Pow(2, Math.Min(tries - 1, 20)) is var wait && wait < LongestWait ? wait : LongestWait;

    // A clock that was set back leaves tries further ahead than any wait: those are due too.
    private static Expression<Func<EscalationNotice, bool>> Due(IReadOnlyList<EscalationChannel> channels, DateTime nowUtc)
    {
        var farthest = nowUtc + LongestWait;
        return n => n.EndedAtUtc == null && channels.Contains(n.Channel) && (n.NextTryAtUtc <= nowUtc || n.NextTryAtUtc > farthest);
    }
}
