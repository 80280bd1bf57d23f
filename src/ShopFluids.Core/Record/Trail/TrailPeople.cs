using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.Record.Trail;

/// <summary>The names of those who acted, as they are now: who has left is a number in old entries too.</summary>
internal sealed class TrailPeople(IReadOnlyDictionary<Guid, string> names)
{
    public static async Task<TrailPeople> OfAsync(ShopFluidsDbContext db, CancellationToken cancellationToken) =>
        new(await db.Users.AsNoTracking().ToDictionaryAsync(p => p.Id, p => p.DisplayName, cancellationToken));

    public string NameOf(RecordEntry entry) => entry.ActorId is { } id ? NameOf(id) : entry.ActorName;

    public async Task<IReadOnlyList<TrailActor>> ActorsAsync(ShopFluidsDbContext db, CancellationToken cancellationToken)
    {
        var people = await db.RecordEntries.Where(e => e.ActorId != null).Select(e => e.ActorId).Distinct().ToListAsync(cancellationToken);
        var others = await db.RecordEntries.Where(e => e.ActorId == null).Select(e => e.ActorName).Distinct().ToListAsync(cancellationToken);
        return [.. people.OfType<Guid>().Select(id => new TrailActor(id.ToString("D"), NameOf(id)))
            .Concat(others.Select(name => new TrailActor(name, name)))
            .OrderBy(a => a.Name, StringComparer.CurrentCultureIgnoreCase)
            .ThenBy(a => a.Key, StringComparer.Ordinal)];
    }

    // An id that nobody has was written past the program; verify names the entry.
    private string NameOf(Guid id) => names.TryGetValue(id, out var name) ? name : id.ToString("D");
}
