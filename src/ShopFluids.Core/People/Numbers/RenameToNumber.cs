using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Live;
using ShopFluids.Core.Record;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.People.Numbers;

/// <summary>Somebody has left: what they did stays, under a number in place of their name. It cannot be taken back.</summary>
/// <param name="SignInName">Typed in full by who does it.</param>
public sealed record RenameToNumber(string SignInName);

/// <param name="Label">How the person is called from now on.</param>
public sealed record RenamedPerson(Guid Id, string Label);

/// <summary>Nobody takes their own name away: they would be signed out in the middle of it.</summary>
public sealed record OwnAccount : Error;

public sealed class RenameToNumberHandler(ShopDatabase shop, AccountMaker maker, ShopClock clock, ShopNews news)
{
    public async Task<Result<RenamedPerson>> HandleAsync(RenameToNumber command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        ArgumentNullException.ThrowIfNull(actor);
        var signInName = command.SignInName.Trim();
        if (signInName.Length == 0)
        {
            return new FieldErrors([new FieldError("leaver", FieldProblem.Missing)]);
        }

        await using var write = await shop.WriteAsync(cancellationToken);
        var database = write.Database;
        if (await AccountRules.FindAsync(database, maker.Normalize(signInName), cancellationToken) is not { } person)
        {
            return new AccountNotFound(signInName);
        }

        if (person.Id == actor.PersonId)
        {
            return new OwnAccount();
        }

        if (await AccountRules.IsLastSupervisorAsync(database, person.Id, cancellationToken))
        {
            return new LastOfItsRole(Roles.Supervisor);
        }

        var number = await PersonNumbers.OfAsync(database, person.Id, cancellationToken);
        if (await AccountRules.FindAsync(database, maker.Normalize(number.SignInName), cancellationToken) is not null)
        {
            // A sign-in name from before such names were refused.
            return new FieldErrors([new FieldError("leaver", FieldProblem.NotUnique, Detail: number.SignInName)]);
        }

        await maker.CloseAsync(database, person, number, clock.UtcNow, cancellationToken);
        number.VouchFor(person);
        foreach (var token in await database.ApiTokens.Where(t => t.PersonId == person.Id && t.RevokedAtUtc == null).ToListAsync(cancellationToken))
        {
            token.Revoke(clock.UtcNow);
        }

        var tasks = await database.CareTasks.Where(t => t.AssignedToId == person.Id && t.State == TaskState.Open).ToListAsync(cancellationToken);
        tasks.ForEach(t => t.Assign(null));

        await write.CommitAsync(new Act(ActCodes.PersonRenamed, actor, clock.UtcNow, number.Label), cancellationToken);
        foreach (var sumpId in tasks.Select(t => t.SumpId).Distinct())
        {
            news.Publish(sumpId);
        }

        return new RenamedPerson(person.Id, number.Label);
    }
}
