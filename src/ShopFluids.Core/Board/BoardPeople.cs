using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.People;

namespace ShopFluids.Core.Board;

/// <summary>Everybody, by name, and whether work can be given to them.</summary>
internal sealed class BoardPeople(IReadOnlyList<(BoardPerson Person, bool CanWork)> all)
{
    private readonly IReadOnlyList<(BoardPerson Person, bool CanWork)> _all = all;

    public IReadOnlyDictionary<Guid, BoardPerson> ById { get; } = all.ToDictionary(p => p.Person.Id, p => p.Person);

    public IReadOnlyDictionary<Guid, string> Names { get; } = all.ToDictionary(p => p.Person.Id, p => p.Person.Name);

    public IReadOnlyList<BoardPerson> WhoCanWork { get; } = [.. all.Where(p => p.CanWork).Select(p => p.Person)];

    public bool AreThoseOf(BoardPeople other) => _all.SequenceEqual(other._all);
}

/// <summary>Asks who there is. Part of pages that are opened often, hence compiled once; a compiled query is of one model, hence no static.</summary>
internal sealed class BoardPeopleQuery
{
    private readonly Func<ShopFluidsDbContext, IAsyncEnumerable<Row>> _all = EF.CompileAsyncQuery(
        (ShopFluidsDbContext db) => db.Users.AsNoTracking().Select(p => new Row(
            p.Id,
            p.DisplayName,
            db.UserRoles.Any(h => h.UserId == p.Id && db.Roles.Any(r => r.Id == h.RoleId && (r.Name == Roles.Operator || r.Name == Roles.Supervisor))))));

    public async Task<BoardPeople> RunAsync(ShopFluidsDbContext db, CancellationToken cancellationToken)
    {
        var people = await _all(db).ToListAsync(cancellationToken);
        return new([.. people.OrderBy(p => p.Name, StringComparer.OrdinalIgnoreCase).ThenBy(p => p.Id).Select(p => (new BoardPerson(p.Id, p.Name), p.CanWork))]);
    }

    private sealed record Row(Guid Id, string Name, bool CanWork);
}
