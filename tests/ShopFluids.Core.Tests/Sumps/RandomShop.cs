using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Setup;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Testing.Shop;

namespace ShopFluids.Core.Tests.Sumps;

/// <summary>
/// Does to a shop what people do in some order that a seed decides, and notes each answer without its ids. The same seed does the same
/// on any engine.
/// </summary>
internal sealed class RandomShop(ShopFixture shop, int seed)
{
    private readonly Random _random = new(seed);
    private readonly List<string> _log = [];

    public IReadOnlyList<string> Log => _log;

    public async Task StepAsync()
    {
        shop.Clock.Advance(TimeSpan.FromMinutes(_random.Next(1, 2000)));
        switch (_random.Next(12))
        {
            case <= 3:
                await ReadAsync(shop.Now);
                break;
            case 4:
                await ReadAsync(shop.Now.AddMinutes(-_random.Next(1, 4000)));
                break;
            case 5:
                await CorrectAsync();
                break;
            case 6:
                Note("add", await shop.AddAsync(Some.Addition(shop.LotId, _random.Next(0, 30), _random.Next(0, 3), _random.Next(0, 2) * 5, shop.Now.AddMinutes(-_random.Next(0, 600)))));
                break;
            case 7:
                await EndTaskAsync();
                break;
            case 8:
                await CloseFlagAsync();
                break;
            case 9:
                _log.Add($"overdue {await shop.Get<NoticeOverdueHandler>().HandleAsync(default)}");
                break;
            case 10:
                await PlanAsync();
                break;
            default:
                await DrainAndFillAsync();
                break;
        }

        var standing = await shop.ReadAsync(db => db.Standings.AsNoTracking().SingleAsync());
        _log.Add(Outcomes.ModuloIds($"standing {standing.Verdict} {standing.Direction} {standing.VolumeLitres} {standing.OpenFlagCount} {standing.NextDueAtUtc:O} {JsonColumn.Write(standing.Facts)}"));
    }

    private async Task ReadAsync(DateTime at)
    {
        var command = Values() with { TakenAtUtc = at };
        var preview = await shop.Get<PreviewReadingQuery>().RunAsync(command, default);
        var before = await shop.FootprintAsync();
        var stored = await shop.RecordAsync(command);
        if (stored.Value is { } recorded && Outcomes.ModuloIds(recorded.Outcome) != Outcomes.ModuloIds(preview.Done()))
        {
            throw new InvalidOperationException($"The preview said {Outcomes.Whole(preview.Done())}, the store {Outcomes.Whole(recorded.Outcome)}.");
        }

        if (stored.Value is null && before != await shop.FootprintAsync())
        {
            throw new InvalidOperationException("A refused reading left something behind.");
        }

        Note("read", stored);
    }

    private async Task CorrectAsync()
    {
        var readings = await shop.ReadAsync(db => db.Readings.OrderBy(r => r.TakenAtUtc).ThenBy(r => r.StoredAtUtc).Select(r => new { r.Id, r.TakenAtUtc }).ToListAsync());
        if (readings.Count == 0)
        {
            return;
        }

        var wrong = readings[_random.Next(readings.Count)];
        Note("correct", await shop.RecordAsync(Values() with { TakenAtUtc = wrong.TakenAtUtc, SupersedesId = wrong.Id, CorrectionReason = "Slip" }));
    }

    private async Task EndTaskAsync()
    {
        var tasks = await shop.ReadAsync(db => db.CareTasks.Where(t => t.State == TaskState.Open).OrderBy(t => t.DueAtUtc).ThenBy(t => t.Kind).ThenBy(t => t.CreatedAtUtc).ToListAsync());
        if (tasks.Count > 0)
        {
            var state = _random.Next(2) == 0 ? TaskState.Done : TaskState.Skipped;
            Note("end", await shop.Get<EndTaskHandler>().HandleAsync(new EndTask(tasks[_random.Next(tasks.Count)].Id, state, "No time"), Some.Operator, isSupervisor: false, default));
        }
    }

    private async Task CloseFlagAsync()
    {
        var flags = await shop.ReadAsync(db => db.Flags.Where(f => f.EndedAtUtc == null).OrderBy(f => f.Rule).ThenBy(f => f.Parameter).ToListAsync());
        if (flags.Count > 0)
        {
            Note("close", await shop.Get<CloseFlagHandler>().HandleAsync(new CloseFlag(flags[_random.Next(flags.Count)].Id, "Known"), Some.Supervisor, default));
        }
    }

    private async Task PlanAsync()
    {
        var kind = new[] { TaskKind.Test, TaskKind.Skim, TaskKind.ChangeFilter }[_random.Next(3)];
        var basis = _random.Next(2) == 0 ? IntervalBasis.CalendarAnchored : IntervalBasis.FromLastDone;
        Note("plan", await shop.Get<AddCareStepHandler>().HandleAsync(Some.Step(kind, basis: basis, days: _random.Next(1, 15), closedDays: (ClosedDayPolicy)_random.Next(3)), Some.Supervisor, default));
    }

    private async Task DrainAndFillAsync()
    {
        Note("drain", await shop.DrainAsync(shop.Now, _random.Next(50, 150)));
        if (_random.Next(4) > 0)
        {
            Note("fill", await shop.FillAsync(Some.Fill(Some.Id(), shop.FluidId, shop.LotId, at: shop.Now, water: _random.Next(60, 140), concentrate: _random.Next(0, 12))));
        }
    }

    private RecordReading Values()
    {
        var all = new[]
        {
            Some.Typed(ParameterCodes.Concentration, _random.Next(30, 120) / 10m),
            Some.Typed(ParameterCodes.Concentration, _random.Next(60, 240) / 10m, method: "titration"),
            Some.Typed(ParameterCodes.Ph, _random.Next(78, 102) / 10m),
            Some.Typed(ParameterCodes.Level, _random.Next(0, 420)),
            Some.Typed(ParameterCodes.Odour, _random.Next(0, 4)),
            Some.Typed(ParameterCodes.TrampOil, _random.Next(0, 70)),
            Some.Typed(ParameterCodes.Bacteria, _random.Next(2, 8)),
            Some.Typed(ParameterCodes.Nitrite, _random.Next(0, 30)),
        };
        return Some.ReadingOf([.. all.Where(_ => _random.Next(2) == 0)]);
    }

    private void Note<T>(string what, Result<T> answer)
        where T : class =>
        _log.Add(Outcomes.ModuloIds($"{what}: {answer.Match(done => JsonColumn.Write(done), refused => JsonColumn.Write<object>(refused))}"));
}
