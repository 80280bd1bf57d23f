using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.DemoData.Commands;
using ShopFluids.Core.DemoData.History;
using ShopFluids.Core.DemoData.Seed;
using ShopFluids.Core.People;
using ShopFluids.Core.Record;
using ShopFluids.Core.Record.Sealing;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.DemoData;

/// <summary>
/// Fills an empty database with an invented shop and its last 18 months, through the same commands as the pages. The history
/// ends with the shop day of the clock given; one seed and one day always make the same shop.
/// </summary>
/// <param name="now">The real clock; the acts of the past get theirs from a clock of their own.</param>
public sealed class DemoShop(IDbContextFactory<ShopFluidsDbContext> contexts, IDatabaseProvider provider, RecordSealer sealer, TimeProvider now)
{
    /// <summary>The name of the token that each start makes anew. It is made last, so it also says that a load was finished.</summary>
    private const string TokenName = "Demo";

    /// <summary>Loads the shop unless it is there. A database with a shop is left as it is, but for a fresh API token.</summary>
    /// <param name="seedFolder">The folder demo-seed.</param>
    public async Task<Result<LoadedDemo>> LoadAsync(string seedFolder, IProgress<DemoProgress> progress, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(progress);
        var seed = await DemoSeed.ReadAsync(seedFolder, cancellationToken);
        var isNew = false;
        switch (await StateAsync(cancellationToken))
        {
            case State.BrokenOff:
                return new DemoBrokenOff();
            case State.Empty:
                isNew = true;
                await FillAsync(seed, progress, cancellationToken);
                break;
        }

        await using var commands = new DemoCommands(contexts, provider, sealer, now);
        var token = await MakeTokenAsync(commands, seed, cancellationToken);
        return new LoadedDemo(isNew, [.. seed.People.Where(p => p.IsShown).Select(p => new DemoSignIn(p.SignInName, seed.Password, p.Roles[0], p.Pin))], token);
    }

    // A load that is broken off is thrown away, so its commits need not wait for the disk.
    private async Task FillAsync(DemoSeed seed, IProgress<DemoProgress> progress, CancellationToken cancellationToken)
    {
        var filling = provider.ForFilling();
        var history = new DemoHistory(seed, await FillingContexts.OfAsync(contexts, filling, cancellationToken), filling, sealer, new ShopClock(now).UtcNow, progress);
        await history.LoadAsync(cancellationToken);
    }

    private async Task<State> StateAsync(CancellationToken cancellationToken)
    {
        await using var db = await contexts.CreateDbContextAsync(cancellationToken);
        return !await db.Sites.AnyAsync(cancellationToken) ? State.Empty
            : await db.ApiTokens.AnyAsync(t => t.Name == TokenName, cancellationToken) ? State.Loaded
            : State.BrokenOff;
    }

    private static async Task<string> MakeTokenAsync(DemoCommands commands, DemoSeed seed, CancellationToken cancellationToken)
    {
        // The first start has none to revoke, which is no fault.
        await commands.RevokeToken.HandleAsync(new RevokeToken(TokenName), Actor.Program, cancellationToken);
        var owner = await commands.PersonAsync(seed.TokenOwner, cancellationToken);
        return (await commands.MakeToken.HandleAsync(new MakeToken(commands.Clock.NewId(), TokenName, owner), Actor.Program, cancellationToken)).Done().Token;
    }

    private enum State
    {
        Empty,
        Loaded,
        BrokenOff,
    }
}

/// <param name="IsNew">Loaded by this call; otherwise it was there.</param>
/// <param name="SignIns">For the sign-in page, which shows them in a demo only.</param>
/// <param name="ApiToken">In clear, for one line on standard output.</param>
public sealed record LoadedDemo(bool IsNew, IReadOnlyList<DemoSignIn> SignIns, string ApiToken);

/// <param name="Role">One of <see cref="Roles"/>.</param>
/// <param name="Pin">For the stations; null for who has none.</param>
public sealed record DemoSignIn(string SignInName, string Password, string Role, string? Pin);

/// <summary>How far the load is: 0 to 100, and which day of the history it has reached.</summary>
public sealed record DemoProgress(int Percent, DateOnly Day);

/// <summary>The database holds a shop that is no whole demo: a load was broken off, or it is another shop's. Nothing was changed.</summary>
public sealed record DemoBrokenOff : Error;
