using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.DemoData.Commands;
using ShopFluids.Core.DemoData.Seed;
using ShopFluids.Core.Record.Sealing;

namespace ShopFluids.Core.DemoData.History;

/// <summary>Opens the shop and lives through its history, day by day, until the morning of today.</summary>
internal sealed class DemoHistory(DemoSeed seed, IDbContextFactory<ShopFluidsDbContext> contexts, IDatabaseProvider provider, RecordSealer sealer, DateTime nowUtc, IProgress<DemoProgress> progress)
{
    private const int ProgressStepPercent = 5;

    public async Task LoadAsync(CancellationToken cancellationToken)
    {
        // The evening before the first day; the site's own calendar is not known yet.
        var time = new SteppedTime(nowUtc.Date.AddDays(-(7 * seed.Weeks) - 2).AddHours(15), nowUtc);
        await using var commands = new DemoCommands(contexts, provider, sealer, time);
        var opening = new DemoOpening(seed, commands, time);
        var scene = await opening.OpenAsync(nowUtc, cancellationToken);
        var stores = new DemoStores(scene);
        var days = new DemoDay(scene, stores, [.. seed.Sumps.Select(s => SumpModel.Of(seed, s))]);
        await days.FillAllAsync(opening, cancellationToken);

        var total = scene.Today.DayNumber - scene.FirstDay.DayNumber;
        var told = -1;
        for (var passed = 0; passed < total; passed++)
        {
            var day = scene.FirstDay.AddDays(passed);
            await days.LiveAsync(day, cancellationToken);
            var percent = 100 * (passed + 1) / total;
            if (percent / ProgressStepPercent > told)
            {
                told = percent / ProgressStepPercent;
                progress.Report(new DemoProgress(percent, day));
            }
        }

        await days.BeginTodayAsync(cancellationToken);
    }
}
