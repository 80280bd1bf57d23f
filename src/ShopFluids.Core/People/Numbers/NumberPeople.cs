using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Record;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.People.Numbers;

/// <summary>Gives a number to everybody who has an account from before there were numbers, in the order in which the accounts were made: the order of their ids.</summary>
public sealed class NumberPeopleHandler(ShopDatabase shop, ShopClock clock)
{
    /// <returns>How many got one.</returns>
    public async Task<int> HandleAsync(CancellationToken cancellationToken)
    {
        await using (var database = await shop.ReadAsync(cancellationToken))
        {
            if (!await Without(database).AnyAsync(cancellationToken))
            {
                return 0;
            }
        }

        await using var write = await shop.WriteAsync(cancellationToken);
        var people = await Without(write.Database).OrderBy(p => p.Id).ToListAsync(cancellationToken);
        foreach (var person in people)
        {
            await PersonNumbers.AddAsync(write.Database, person, cancellationToken);
            await write.FlushAsync(cancellationToken);
        }

        await write.CommitAsync(new Act(ActCodes.PeopleNumbered, Actor.Program, clock.UtcNow, ""), cancellationToken);
        return people.Count;
    }

    private static IQueryable<Person> Without(ShopFluidsDbContext database) => database.Users.Where(p => !database.PersonNumbers.Any(n => n.Id == p.Id));
}
