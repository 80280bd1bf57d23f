using Microsoft.AspNetCore.Identity;
using ShopFluids.Core.Database;
using ShopFluids.Core.Record;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.People.Pins;

/// <summary>Gives a person a PIN for the stations, by the person or by a supervisor; ends the person's sign-ins.</summary>
/// <param name="Pin">Six digits, none of the easy ones.</param>
public sealed record SetPin(Guid PersonId, string Pin);

/// <summary>Kept as a password is: by a slow, salted hash that nobody can read. Noted in the record by name alone.</summary>
public sealed class SetPinHandler(ShopDatabase shop, AccountMaker maker, IPasswordHasher<Person> hasher, ShopClock clock)
{
    public async Task<Result<MadeAccount>> HandleAsync(SetPin command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        if (PinRules.Check(command.Pin) is { } refused)
        {
            return refused;
        }

        // Before the writers' lock: hashing is slow on purpose.
        var hash = hasher.HashPassword(new Person { Id = command.PersonId }, command.Pin);
        await using var write = await shop.WriteAsync(cancellationToken);
        if (await write.Database.Users.FindAsync([command.PersonId], cancellationToken) is not { } person)
        {
            return new AccountNotFound(command.PersonId.ToString("D"));
        }

        var name = person.UserName ?? "";
        person.PinHash = hash;
        maker.Restamp(person);
        var act = new Act(ActCodes.AccountChanged, actor, clock.UtcNow, name);
        AccountRules.Note(write, act);
        await write.CommitAsync(act, cancellationToken);
        return new MadeAccount(person.Id, name, IsNew: false);
    }
}
