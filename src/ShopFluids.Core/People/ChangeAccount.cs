using Microsoft.AspNetCore.Identity;
using ShopFluids.Core.Database;
using ShopFluids.Core.People.Numbers;
using ShopFluids.Core.Record;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;

namespace ShopFluids.Core.People;

/// <summary>Gives a person a new password without knowing the old one; ends their sign-ins and any lockout.</summary>
public sealed record ResetPassword(string SignInName, string Password);

/// <summary>A person's own change of password.</summary>
public sealed record ChangePassword(Guid PersonId, string CurrentPassword, string NewPassword);

/// <summary>Gives a person exactly these roles.</summary>
public sealed record ChangeRoles(string SignInName, IReadOnlyList<string> Roles);

/// <summary>A person's own choices.</summary>
/// <param name="Units">Null takes the site's.</param>
public sealed record ChangePreferences(Guid PersonId, UnitSystem? Units, string Theme);

/// <summary>Changes of accounts. Each is noted in the record under the person's number, never with its secrets.</summary>
public sealed class ChangeAccountHandler(ShopDatabase shop, AccountMaker maker, IPasswordHasher<Person> passwords, ShopClock clock)
{
    public async Task<Result<MadeAccount>> HandleAsync(ResetPassword command, Actor actor, CancellationToken cancellationToken)
    {
        var errors = new List<FieldError>();
        AccountRules.CheckPassword(errors, command.Password, command.SignInName);
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        await using var write = await shop.WriteAsync(cancellationToken);
        if (await AccountRules.FindAsync(write.Database, maker.Normalize(command.SignInName), cancellationToken) is not { } person)
        {
            return new AccountNotFound(command.SignInName);
        }

        maker.SetPassword(person, command.Password);
        return await CommitAsync(write, person, actor, cancellationToken);
    }

    public async Task<Result<MadeAccount>> HandleAsync(ChangePassword command, Actor actor, CancellationToken cancellationToken)
    {
        await using var write = await shop.WriteAsync(cancellationToken);
        if (await write.Database.Users.FindAsync([command.PersonId], cancellationToken) is not { } person)
        {
            return new AccountNotFound(actor.Name);
        }

        var errors = new List<FieldError>();
        AccountRules.CheckCurrent(errors, passwords, person, "currentPassword", command.CurrentPassword);
        AccountRules.CheckPassword(errors, command.NewPassword, person.UserName ?? "");
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        maker.SetPassword(person, command.NewPassword);
        return await CommitAsync(write, person, actor, cancellationToken);
    }

    public async Task<Result<MadeAccount>> HandleAsync(ChangeRoles command, Actor actor, CancellationToken cancellationToken)
    {
        var errors = new List<FieldError>();
        AccountRules.CheckRoles(errors, command.Roles);
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        await using var write = await shop.WriteAsync(cancellationToken);
        var database = write.Database;
        if (await AccountRules.FindAsync(database, maker.Normalize(command.SignInName), cancellationToken) is not { } person)
        {
            return new AccountNotFound(command.SignInName);
        }

        if (!command.Roles.Contains(Roles.Supervisor) && await AccountRules.IsLastSupervisorAsync(database, person.Id, cancellationToken))
        {
            return new LastOfItsRole(Roles.Supervisor);
        }

        await maker.SetRolesAsync(database, person.Id, command.Roles, cancellationToken);
        maker.Restamp(person);
        return await CommitAsync(write, person, actor, cancellationToken);
    }

    public async Task<Result<MadeAccount>> HandleAsync(ChangePreferences command, Actor actor, CancellationToken cancellationToken)
    {
        var errors = new List<FieldError>();
        AccountRules.CheckTheme(errors, command.Theme);
        if (command.Units is { } units && !Enum.IsDefined(units))
        {
            errors.Add(new FieldError("units", FieldProblem.UnknownChoice));
        }

        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        await using var write = await shop.WriteAsync(cancellationToken);
        if (await write.Database.Users.FindAsync([command.PersonId], cancellationToken) is not { } person)
        {
            return new AccountNotFound(actor.Name);
        }

        person.Units = command.Units;
        person.Theme = command.Theme;
        return await CommitAsync(write, person, actor, cancellationToken);
    }

    private async Task<Result<MadeAccount>> CommitAsync(ShopWrite write, Person person, Actor actor, CancellationToken cancellationToken)
    {
        var act = new Act(ActCodes.AccountChanged, actor, clock.UtcNow, (await PersonNumbers.OfAsync(write.Database, person.Id, cancellationToken)).Label);
        write.Note(act);
        await write.CommitAsync(act, cancellationToken);
        return new MadeAccount(person.Id, person.UserName ?? "", IsNew: false);
    }
}
