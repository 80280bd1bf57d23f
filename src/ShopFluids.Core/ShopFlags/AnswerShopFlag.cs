using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Live;
using ShopFluids.Core.Record;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.ShopFlags;

/// <summary>A supervisor says what was done about a shop flag; it is not raised again before what it found has gone away.</summary>
public sealed record AnswerShopFlag(Guid FlagId, string Answer);

public sealed record AnsweredShopFlag(Guid FlagId);

public sealed record ShopFlagNotFound(Guid FlagId) : Error;

public sealed record ShopFlagEndedAlready(Guid FlagId, DateTime EndedAtUtc) : Error;

public sealed class AnswerShopFlagHandler(ShopDatabase database, ShopClock clock, ShopNews news)
{
    public async Task<Result<AnsweredShopFlag>> HandleAsync(AnswerShopFlag command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        ArgumentNullException.ThrowIfNull(actor);
        var answer = command.Answer.Trim();
        var errors = new List<FieldError>();
        TextChecks.Check(errors, "reason", answer, ShopFlag.MaximumAnswerLength);
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        await using var write = await database.WriteAsync(cancellationToken);
        if (await write.Database.ShopFlags.FirstOrDefaultAsync(f => f.Id == command.FlagId, cancellationToken) is not { } flag)
        {
            return new ShopFlagNotFound(command.FlagId);
        }

        if ((flag.AnsweredAtUtc ?? flag.GoneAtUtc) is { } ended)
        {
            return new ShopFlagEndedAlready(flag.Id, ended);
        }

        var now = clock.UtcNow;
        flag.AnswerWith(answer, now, actor.PersonId);
        await write.CommitAsync(new Act(ActCodes.ShopFlagAnswered, actor, now, flag.Rule), cancellationToken);
        news.Publish(Guid.Empty);
        return new AnsweredShopFlag(flag.Id);
    }
}
