using ShopFluids.Core.Database;
using ShopFluids.Core.People.Numbers;
using ShopFluids.Core.Record;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.People;

/// <summary>Lets a person sign in.</summary>
/// <param name="SignInName">Letters, digits and . - _ @; 60 at most.</param>
/// <param name="Password">10 to 200 characters.</param>
/// <param name="Roles">One or more of <see cref="People.Roles"/>.</param>
/// <param name="Theme">light, dark or shop.</param>
public sealed record MakeAccount(Guid Id, string SignInName, string DisplayName, string Password, IReadOnlyList<string> Roles, string Theme);

/// <summary>The account that was made, or that stood there already under the same id.</summary>
public sealed record MadeAccount(Guid Id, string SignInName, bool IsNew);

public sealed class MakeAccountHandler(ShopDatabase shop, AccountMaker maker, ShopClock clock)
{
    public async Task<Result<MadeAccount>> HandleAsync(MakeAccount command, Actor actor, CancellationToken cancellationToken)
    {
        var signInName = command.SignInName.Trim();
        var displayName = command.DisplayName.Trim();
        var errors = new List<FieldError>();
        AccountRules.CheckName(errors, signInName);
        AccountRules.CheckDisplayName(errors, displayName);
        AccountRules.CheckPassword(errors, command.Password, signInName);
        AccountRules.CheckRoles(errors, command.Roles);
        AccountRules.CheckTheme(errors, command.Theme);
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        // Before the writers' lock: hashing a password is slow on purpose.
        var person = maker.Make(command.Id, signInName, displayName, command.Password, command.Theme);
        await using var write = await shop.WriteAsync(cancellationToken);
        if (await AccountRules.FindAsync(write.Database, maker.Normalize(signInName), cancellationToken) is { } existing)
        {
            return existing.Id == command.Id
                ? new MadeAccount(existing.Id, signInName, IsNew: false)
                : new FieldErrors([new FieldError("signInName", FieldProblem.NotUnique)]);
        }

        write.Database.Add(person);
        await maker.SetRolesAsync(write.Database, person.Id, command.Roles, cancellationToken);
        var number = await PersonNumbers.AddAsync(write.Database, person, cancellationToken);
        await write.CommitAsync(new Act(ActCodes.AccountMade, actor, clock.UtcNow, number.Label), cancellationToken);
        return new MadeAccount(person.Id, signInName, IsNew: true);
    }
}
