using Microsoft.AspNetCore.Identity;
using ShopFluids.Core.Database;
using ShopFluids.Core.People.Numbers;
using ShopFluids.Core.Record;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.People.Pins;

/// <summary>Gives a person a PIN for the stations, by a supervisor; ends the person's sign-ins.</summary>
/// <param name="Pin">Six digits, none of the easy ones.</param>
public sealed record SetPin(Guid PersonId, string Pin);

/// <summary>A person's own PIN.</summary>
/// <param name="CurrentPassword">Of the person: with the PIN of somebody who left a screen open one would read sumps in that name.</param>
public sealed record SetOwnPin(Guid PersonId, string CurrentPassword, string Pin);

/// <summary>Kept as a password is: by a slow, salted hash that nobody can read. Noted in the record under the person's number alone.</summary>
public sealed class SetPinHandler(ShopDatabase shop, AccountMaker maker, IPasswordHasher<Person> hasher, ShopClock clock)
{
    public const string CurrentPasswordField = "pinPassword";

    public Task<Result<MadeAccount>> HandleAsync(SetPin command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        return SetAsync(command, null, actor, cancellationToken);
    }

    public Task<Result<MadeAccount>> HandleAsync(SetOwnPin command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        return SetAsync(new SetPin(command.PersonId, command.Pin), command.CurrentPassword, actor, cancellationToken);
    }

    /// <param name="currentPassword">Null where nobody asks for it.</param>
    private async Task<Result<MadeAccount>> SetAsync(SetPin command, string? currentPassword, Actor actor, CancellationToken cancellationToken)
    {
        if (PinRules.Check(command.Pin) is { } refused)
        {
            return refused;
        }

        // Before the writers' lock: hashing is slow on purpose.
        var hash = hasher.HashPassword(new Person { Id = command.PersonId }, command.Pin);
        await using var write = await shop.WriteAsync(cancellationToken);
        if (await write.Database.Users.FindAsync([command.PersonId], cancellationToken) is not { LeftAtUtc: null } person)
        {
            return new AccountNotFound(command.PersonId.ToString("D"));
        }

        var errors = new List<FieldError>();
        if (currentPassword is not null)
        {
            AccountRules.CheckCurrent(errors, hasher, person, CurrentPasswordField, currentPassword);
        }

        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        person.PinHash = hash;
        maker.Restamp(person);
        var act = new Act(ActCodes.AccountChanged, actor, clock.UtcNow, (await PersonNumbers.OfAsync(write.Database, person.Id, cancellationToken)).Label);
        write.Note(act);
        await write.CommitAsync(act, cancellationToken);
        return new MadeAccount(person.Id, person.UserName ?? "", IsNew: false);
    }
}
