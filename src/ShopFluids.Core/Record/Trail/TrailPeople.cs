using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.Record.Trail;

/// <summary>The names of those who acted, as they are now: who has left is a number in old entries too.</summary>
/// <param name="names">By id.</param>
/// <param name="numberedIn">The entry with which people from before there were numbers got them; 0 where everybody had one from the first.</param>
internal sealed class TrailPeople(IReadOnlyDictionary<Guid, string> names, long numberedIn)
{
    public static async Task<TrailPeople> OfAsync(ShopFluidsDbContext db, CancellationToken cancellationToken) =>
        new(await db.Users.AsNoTracking().ToDictionaryAsync(p => p.Id, p => p.DisplayName, cancellationToken), await NumberedInAsync(db, cancellationToken));

    /// <summary>Leaves out what acts on accounts were about before there were numbers: sign-in names, which nobody is to find any more.</summary>
    public static async Task<IQueryable<RecordEntry>> WithoutSignInNamesAsync(ShopFluidsDbContext db, IQueryable<RecordEntry> entries, CancellationToken cancellationToken)
    {
        var numberedIn = await NumberedInAsync(db, cancellationToken);
        return entries.Where(e => e.Sequence > numberedIn || (e.Code != ActCodes.AccountMade && e.Code != ActCodes.AccountChanged));
    }

    /// <summary>What it was done to; empty where that is a sign-in name from before there were numbers.</summary>
    public string SubjectOf(RecordEntry entry) => entry.Sequence < numberedIn && entry is { Code: ActCodes.AccountMade or ActCodes.AccountChanged } ? "" : entry.Subject;

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

    private static async Task<long> NumberedInAsync(ShopFluidsDbContext db, CancellationToken cancellationToken) =>
        await db.RecordEntries.Where(e => e.Code == ActCodes.PeopleNumbered).MaxAsync(e => (long?)e.Sequence, cancellationToken) ?? 0;

    // An id that nobody has was written past the program; verify names the entry.
    private string NameOf(Guid id) => names.TryGetValue(id, out var name) ? name : id.ToString("D");
}
