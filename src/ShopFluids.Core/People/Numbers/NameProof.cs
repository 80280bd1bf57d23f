using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Record;

namespace ShopFluids.Core.People.Numbers;

/// <summary>Holds every person's name against the digest that stands in the record: entries name people by their ids alone.</summary>
internal static class NameProof
{
    public static async Task CheckAsync(ShopFluidsDbContext db, List<VerifyFinding> findings, CancellationToken cancellationToken)
    {
        var numbers = await db.PersonNumbers.AsNoTracking().ToDictionaryAsync(n => n.Id, cancellationToken);
        if (numbers.Count == 0)
        {
            // From before there were numbers; the next start gives them.
            return;
        }

        var people = await db.Users.AsNoTracking().Select(p => new { p.Id, p.NameSalt, p.DisplayName }).ToListAsync(cancellationToken);
        foreach (var person in people)
        {
            if (!numbers.Remove(person.Id, out var number) || !number.Fits(person.NameSalt, person.DisplayName))
            {
                findings.Add(new(VerifyProblem.NameDiffers, Where(person.Id)));
            }
        }

        findings.AddRange(numbers.Keys.Order().Select(id => new VerifyFinding(VerifyProblem.NameDiffers, Where(id))));
    }

    private static string Where(Guid id) => $"{nameof(Person)} {id:D}";
}
