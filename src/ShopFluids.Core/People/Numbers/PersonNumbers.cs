using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.People.Numbers;

/// <summary>Gives numbers, under the writers' lock, and finds them.</summary>
internal static class PersonNumbers
{
    public static async Task<PersonNumber> AddAsync(ShopFluidsDbContext database, Person person, CancellationToken cancellationToken)
    {
        var number = new PersonNumber(person, (await database.PersonNumbers.MaxAsync(n => (int?)n.Number, cancellationToken) ?? 0) + 1);
        database.Add(number);
        return number;
    }

    public static Task<PersonNumber> OfAsync(ShopFluidsDbContext database, Guid personId, CancellationToken cancellationToken) =>
        database.PersonNumbers.SingleAsync(n => n.Id == personId, cancellationToken);
}
