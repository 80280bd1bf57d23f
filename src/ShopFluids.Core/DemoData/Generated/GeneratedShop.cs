using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.DemoData.Commands;
using ShopFluids.Core.DemoData.History;
using ShopFluids.Core.DemoData.Seed;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Record.Sealing;
using ShopFluids.Core.Time;
using ShopFluids.Rules;

namespace ShopFluids.Core.DemoData.Generated;

/// <summary>
/// Fills an empty database with a shop of a chosen size that nobody has. Everything is judged by the shop's own rules as it happens, and every
/// act is in the record; one seed and one day always make the same history.
/// </summary>
/// <param name="now">The real clock; the acts of the past get theirs from a clock of their own.</param>
public sealed class GeneratedShop(IDbContextFactory<ShopFluidsDbContext> contexts, IDatabaseProvider provider, RecordSealer sealer, TimeProvider now)
{
    /// <param name="seedFolder">The folder demo-seed.</param>
    public async Task<Result<GeneratedDone>> LoadAsync(string seedFolder, ShopSize size, IProgress<DemoProgress> progress, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(size);
        ArgumentNullException.ThrowIfNull(progress);
        if (size.Sumps is < 1 or > ShopSize.MostSumps || size.Years is < 1 or > ShopSize.MostYears)
        {
            throw new ArgumentOutOfRangeException(nameof(size), size, $"A generated shop has 1 to {ShopSize.MostSumps} sumps and 1 to {ShopSize.MostYears} years.");
        }

        await using (var db = await contexts.CreateDbContextAsync(cancellationToken))
        {
            if (await db.Sites.AnyAsync(cancellationToken) || await db.Users.AnyAsync(cancellationToken) || await db.Areas.AnyAsync(cancellationToken))
            {
                return new ShopNotEmpty();
            }
        }

        var seed = GeneratedSeed.Of(await DemoSeed.ReadAsync(seedFolder, cancellationToken), size);
        await FillAsync(seed, new ShopClock(now).UtcNow, progress, cancellationToken);
        await using var filled = await contexts.CreateDbContextAsync(cancellationToken);
        return new GeneratedDone(
            await filled.Sumps.CountAsync(cancellationToken),
            await filled.Readings.CountAsync(cancellationToken),
            await filled.Flags.CountAsync(f => f.EndedAtUtc == null, cancellationToken),
            [.. seed.People.Where(p => p.IsShown).Select(p => new DemoSignIn(p.SignInName, seed.Password, p.Roles[0], p.Pin))]);
    }

    private async Task FillAsync(DemoSeed seed, DateTime nowUtc, IProgress<DemoProgress> progress, CancellationToken cancellationToken)
    {
        var filling = provider.ForFilling();
        var fresh = await FillingContexts.OfAsync(contexts, filling, cancellationToken);

        // The day before the first day; the site's own calendar is not known yet.
        var time = new SteppedTime(nowUtc.Date.AddDays(-(7 * seed.Weeks) - 2).AddHours(15), nowUtc);
        await using var commands = new DemoCommands(fresh, filling, sealer, time);
        var opening = new DemoOpening(seed with { Sumps = [] }, commands, time);
        var scene = await opening.OpenAsync(nowUtc, cancellationToken) with { Seed = seed };
        await using var write = new BulkWrite(await fresh.CreateDbContextAsync(cancellationToken), filling, sealer, FateOf);
        await write.BeginAsync(cancellationToken);
        var sumps = await new GeneratedOpening(scene, opening, write).OpenAsync(cancellationToken);
        var history = new GeneratedHistory(scene, new GeneratedStores(scene, write, [.. sumps.Select(s => s.Model)]), write, sumps);
        await history.FillAllAsync(cancellationToken);
        var days = scene.Today.DayNumber - scene.FirstDay.DayNumber;
        for (var passed = 0; passed < days; passed++)
        {
            await history.LiveAsync(scene.FirstDay.AddDays(passed), cancellationToken);
            progress.Report(new DemoProgress(100 * (passed + 1) / days, scene.FirstDay.AddDays(passed)));
        }

        await history.BeginAsync(scene.Today, cancellationToken);
        write.AddUnrecorded(sumps.Select(s => s.Memory.StandingOf(s.Sump)));
        await write.CommitAsync(isLast: true, cancellationToken);

        // What the program's own timer would do next.
        time.Set(nowUtc);
        await commands.NoticeOverdue.HandleAsync(cancellationToken);
        await commands.NoticeShopFlags.HandleAsync(cancellationToken);
        await commands.EscalateFlags.HandleAsync(cancellationToken);
    }

    private static RowFate FateOf(object row) => row switch
    {
        // Whoever looks at the stores wants to know which refills are planned.
        CareTask { State: TaskState.Open, Kind: TaskKind.DrainClean } => RowFate.Changes,
        CareTask { State: TaskState.Open } or Flag { EndedAtUtc: null } => RowFate.Waits,
        Charge { DrainedAtUtc: null } or FluidLot => RowFate.Changes,
        _ => RowFate.Final,
    };
}

/// <summary>What was made.</summary>
public sealed record GeneratedDone(int Sumps, int Readings, int OpenFlags, IReadOnlyList<DemoSignIn> SignIns);

/// <summary>There is a shop already, or a part of one. Nothing was changed.</summary>
public sealed record ShopNotEmpty : Error;
