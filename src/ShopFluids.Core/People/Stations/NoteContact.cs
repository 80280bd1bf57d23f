using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.People.Stations;

/// <summary>What a tablet tells of itself, whoever uses it.</summary>
/// <param name="Unsent">Readings saved on the tablet and not sent yet.</param>
/// <param name="OldestAge">How long ago the oldest of them was saved, by the tablet's clock; null without any.</param>
/// <param name="TabletUtc">What the tablet's clock shows.</param>
public sealed record NoteContact(Guid StationId, int Unsent, TimeSpan? OldestAge, DateTime TabletUtc);

/// <summary>Keeps the latest only. It is no act of anybody, so it stands in no record.</summary>
public sealed class NoteContactHandler(ShopDatabase shop, ShopClock clock)
{
    /// <summary>More than any tablet keeps, and older than any program is: beyond, the tablet speaks nonsense.</summary>
    private const int MostUnsent = 1_000_000;

    private static readonly TimeSpan Oldest = TimeSpan.FromDays(3650);

    public async Task HandleAsync(NoteContact command, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        var now = clock.UtcNow;
        await using var write = await shop.WriteAsync(cancellationToken);
        var contact = await write.Database.StationContacts.FindAsync([command.StationId], cancellationToken);
        if (contact is null)
        {
            if (!await write.Database.Stations.AnyAsync(s => s.Id == command.StationId, cancellationToken))
            {
                return;
            }

            write.Database.Add(contact = new StationContact(command.StationId));
        }

        var age = command.OldestAge is { } given && command.Unsent > 0 ? TimeSpan.FromTicks(Math.Clamp(given.Ticks, 0, Oldest.Ticks)) : (TimeSpan?)null;
        contact.Note(now, Math.Clamp(command.Unsent, 0, MostUnsent), now - age, (long)(command.TabletUtc - now).TotalMilliseconds);
        await write.CommitUnrecordedAsync(cancellationToken);
    }
}
