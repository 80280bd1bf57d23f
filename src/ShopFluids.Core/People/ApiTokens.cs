using System.Security.Cryptography;
using System.Text;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Record;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.People;

/// <summary>Lets a program act for a person, with the person's roles.</summary>
/// <param name="Name">What the token is for; 1 to 80 characters, one working token of a name at a time.</param>
public sealed record MakeToken(Guid Id, string Name, Guid PersonId);

/// <param name="Token">Shown once; only its hash is kept.</param>
public sealed record MadeToken(Guid Id, string Token);

/// <summary>Ends every working token of a name.</summary>
public sealed record RevokeToken(string Name);

public sealed record RevokedTokens(int Count);

/// <summary>No working token has this name.</summary>
public sealed record TokenNotFound(string Name) : Error;

public sealed class MakeTokenHandler(ShopDatabase shop, ShopClock clock)
{
    private const int MaximumNameLength = 80;
    private const int SecretBytes = 32;
    private const string Prefix = "sf_";

    public async Task<Result<MadeToken>> HandleAsync(MakeToken command, Actor actor, CancellationToken cancellationToken)
    {
        var name = command.Name.Trim();
        var errors = new List<FieldError>();
        TextChecks.Check(errors, "name", name, MaximumNameLength);
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        await using var write = await shop.WriteAsync(cancellationToken);
        if (!await write.Database.Users.AnyAsync(p => p.Id == command.PersonId && p.LeftAtUtc == null, cancellationToken))
        {
            return new AccountNotFound(command.PersonId.ToString("D"));
        }

        if (await write.Database.ApiTokens.AnyAsync(t => t.Name == name && t.RevokedAtUtc == null, cancellationToken))
        {
            return new FieldErrors([new FieldError("name", FieldProblem.NotUnique)]);
        }

        var token = Prefix + Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(SecretBytes));
        write.Database.Add(new ApiToken(command.Id, name, HashOf(token), command.PersonId, clock.UtcNow));
        await write.CommitAsync(new Act(ActCodes.AccountChanged, actor, clock.UtcNow, name), cancellationToken);
        return new MadeToken(command.Id, token);
    }

    /// <summary>What is kept of a token, and looked up.</summary>
    public static string HashOf(string token) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(token)));
}

public sealed class RevokeTokenHandler(ShopDatabase shop, ShopClock clock)
{
    public async Task<Result<RevokedTokens>> HandleAsync(RevokeToken command, Actor actor, CancellationToken cancellationToken)
    {
        var name = command.Name.Trim();
        await using var write = await shop.WriteAsync(cancellationToken);
        var tokens = await write.Database.ApiTokens.Where(t => t.Name == name && t.RevokedAtUtc == null).ToListAsync(cancellationToken);
        if (tokens.Count == 0)
        {
            return new TokenNotFound(name);
        }

        tokens.ForEach(t => t.Revoke(clock.UtcNow));
        await write.CommitAsync(new Act(ActCodes.AccountChanged, actor, clock.UtcNow, name), cancellationToken);
        return new RevokedTokens(tokens.Count);
    }
}
