using ShopFluids.Core.Database;
using ShopFluids.Core.DemoData.History;
using ShopFluids.Core.Record;

namespace ShopFluids.Core.DemoData.Generated;

/// <summary>The days of a generated shop, from the first fill to the morning of today: every act in the order of its time.</summary>
internal sealed class GeneratedHistory(DemoScene scene, GeneratedStores stores, BulkWrite write, IReadOnlyList<SumpActs> sumps)
{
    private const int ActsOfACommit = 5000;
    private const double PutOff = 0.03;
    private static readonly TimeSpan Shift = TimeSpan.FromHours(9);

    private readonly GeneratedVisit _visit = new(scene, stores, write);
    private readonly Dictionary<SumpActs, DateOnly> _postponed = [];

    /// <summary>All sumps get their first charge on the day before the first.</summary>
    public async Task FillAllAsync(CancellationToken cancellationToken)
    {
        var day = scene.FirstDay.AddDays(-1);
        await stores.ReceiveAsync(day, cancellationToken);
        foreach (var sump in sumps)
        {
            scene.Time.Advance(PartOfAShift(1, sumps.Count));
            _visit.Fill(sump, day);
        }
    }

    public async Task LiveAsync(DateOnly day, CancellationToken cancellationToken)
    {
        await BeginAsync(day, cancellationToken);
        var isOpen = scene.Calendar.IsOpen(day);
        if (isOpen)
        {
            await WalkAsync(day, cancellationToken);
        }

        foreach (var sump in sumps)
        {
            sump.Troubles.Live();
            sump.Model.Live(isOpen, sump.Troubles.Condition);
        }
    }

    /// <summary>Goods come in, and what became late over night is noticed.</summary>
    public async Task BeginAsync(DateOnly day, CancellationToken cancellationToken)
    {
        scene.Time.Set(scene.Calendar.StartOf(day).AddMinutes(1));
        await stores.ReceiveAsync(day, cancellationToken);
        var now = scene.Time.UtcNow;
        var noticed = sumps.Select(s => s.Notice(now)).OfType<SumpAct>().SelectMany(a => a.Added).ToList();
        if (noticed.Count > 0)
        {
            write.Record(new Act(ActCodes.OverdueNoticed, Actor.Program, now, ""), noticed, []);
        }
    }

    private async Task WalkAsync(DateOnly day, CancellationToken cancellationToken)
    {
        var due = sumps.Where(s => s.DueOn(day).Count > 0 && !IsPutOff(s, day)).ToList();
        var steps = new PriorityQueue<IEnumerator<TimeSpan>, (DateTime At, int Place)>();
        var start = scene.Calendar.StartOf(day).AddMinutes(30);
        foreach (var (place, sump) in due.Index())
        {
            steps.Enqueue(_visit.Steps(sump, day).GetEnumerator(), (start + PartOfAShift(place, due.Count), place));
        }

        while (steps.TryDequeue(out var visit, out var when))
        {
            scene.Time.Set(when.At);
            if (visit.MoveNext())
            {
                steps.Enqueue(visit, (when.At + visit.Current, when.Place));
            }
            else
            {
                visit.Dispose();
            }

            if (write.Pending >= ActsOfACommit)
            {
                await write.CommitAsync(isLast: false, cancellationToken);
                await write.BeginAsync(cancellationToken);
            }
        }
    }

    // One visit in thirty waits a day or two.
    private bool IsPutOff(SumpActs sump, DateOnly day)
    {
        if (_postponed.TryGetValue(sump, out var until))
        {
            if (day < until)
            {
                return true;
            }

            _postponed.Remove(sump);
            return false;
        }

        if (!sump.Model.Chance.Happens(PutOff))
        {
            return false;
        }

        _postponed[sump] = day.AddDays((int)sump.Model.Chance.Between(1, 3));
        return true;
    }

    // In whole seconds: what is stored knows no less than a millisecond.
    private static TimeSpan PartOfAShift(int place, int count) => TimeSpan.FromSeconds(Math.Floor(Shift.TotalSeconds * place / count));
}
